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

/** A mass alone, for a column whose heading bears the unit. */
export const massFigure = (massKg: number, unit: "t" | "kg", decimals = unit === "t" ? 2 : 0): string =>
  formatNumber(unit === "t" ? massKg / 1000 : massKg, decimals);
