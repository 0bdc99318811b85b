/** Masses in kg or t, by magnitude or by choice. */
import { formatNumber, formatSigned, withUnit } from "./number.ts";

export const massUnits = ["auto", "t", "kg"] as const;
export type MassUnit = (typeof massUnits)[number];

/** Which unit a mass is written in: t from 1,000 kg, where the choice is left to the magnitude. */
export const unitOf = (massKg: number, choice: MassUnit): "t" | "kg" =>
  choice === "auto" ? (Math.abs(massKg) >= 999.5 ? "t" : "kg") : choice;

const decimalsOf = (massKg: number, unit: "t" | "kg"): number => {
  if (unit === "t") return Math.abs(massKg) >= 99_950 ? 1 : 2;
  return Math.abs(massKg) < 9.95 && massKg !== 0 ? 1 : 0;
};

/** `12.34 t`, `640 kg`. */
export const formatMass = (massKg: number, choice: MassUnit = "auto"): string => {
  const unit = unitOf(massKg, choice);
  return withUnit(formatNumber(unit === "t" ? massKg / 1000 : massKg, decimalsOf(massKg, unit)), unit);
};

/** The same with its sign: `+1.20 t`. */
export const formatMassChange = (massKg: number, choice: MassUnit = "auto"): string => {
  const unit = unitOf(massKg, choice);
  return withUnit(formatSigned(unit === "t" ? massKg / 1000 : massKg, decimalsOf(massKg, unit)), unit);
};

/**
 * Decimals that show at least the first digit of a value that is not nothing, down to a gram: what is missing is never
 * written as nothing. `value` and the gram are in the unit shown; `least` decimals are written anyway.
 */
const decimalsToShow = (value: number, least: number, gram: number): number => {
  const size = Math.abs(value);
  if (size < gram || size >= 0.5 * 10 ** -least) return least;
  return Math.min(6, Math.ceil(-Math.log10(2 * size)));
};

/** A shortage in a sentence: `1.90 t`, `0.04 kg`, `less than 1 g`. The one rule of rounding for what is missing. */
export const formatShortage = (massKg: number, choice: MassUnit = "auto"): string => {
  if (massKg > 0 && massKg < 0.0005) return `less than ${withUnit("1", "g")}`;
  // A tonne figure with six decimals says nothing to anyone: small shortages are in kg whatever was chosen.
  const unit = unitOf(massKg, Math.abs(massKg) < 5 ? "kg" : choice);
  const value = unit === "t" ? massKg / 1000 : massKg;
  const decimals = decimalsToShow(value, decimalsOf(massKg, unit), unit === "t" ? 0.0000005 : 0.0005);
  return withUnit(formatNumber(value, decimals), unit);
};

/** The same as a figure for a column whose heading bears the unit, with a sign where it may be negative. */
export const shortageFigure = (massKg: number, unit: "t" | "kg", decimals: number, isSigned = false): string => {
  const value = unit === "t" ? massKg / 1000 : massKg;
  const gram = unit === "t" ? 0.0000005 : 0.0005;
  if (value !== 0 && Math.abs(value) < gram)
    return `${value < 0 ? "\u2212" : ""}<${formatNumber(2 * gram, unit === "t" ? 6 : 3)}`;
  const shown = decimalsToShow(value, decimals, gram);
  return isSigned ? formatSigned(value, shown) : formatNumber(value, shown);
};

/** A mass alone, for a column whose heading bears the unit. */
export const massFigure = (massKg: number, unit: "t" | "kg", decimals = unit === "t" ? 2 : 0): string =>
  formatNumber(unit === "t" ? massKg / 1000 : massKg, decimals);
