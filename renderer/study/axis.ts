/** An axis of numbers for the pictures of a study: where values lie, round figures on it, and masses in t where they are large. */
import { tickStep, ticks } from "d3-array";
import { SHARE } from "../../app/study/column-words.ts";
import { type MassUnit, unitOf } from "../format/mass.ts";
import { formatNumber, withUnit } from "../format/number.ts";

export interface AxisWords {
  readonly words: string;
  /** "": a number. */
  readonly unit: string;
}

export interface Axis {
  /** Pixels of a value. */
  readonly at: (value: number) => number;
  /** The value at pixels. */
  readonly of: (pixel: number) => number;
  readonly ticks: readonly { readonly at: number; readonly label: string }[];
  /** "Loss factor", "Size of Tarn oxygen, t". */
  readonly title: string;
}

/** "loss rate" → "Loss rate". */
export const capital = (words: string): string => words.slice(0, 1).toUpperCase() + words.slice(1);

/** What a unit is shown in, and how many of it are one shown. */
export const shownUnit = (
  unit: string,
  most: number,
  choice: MassUnit,
): { readonly unit: string; readonly per: number } =>
  unit === SHARE
    ? { unit: "%", per: 0.01 }
    : unit === "kg" && unitOf(most, choice) === "t"
      ? { unit: "t", per: 1000 }
      : { unit, per: 1 };

const decimalsOf = (step: number): number => Math.max(0, Math.min(6, -Math.floor(Math.log10(step) + 1e-9)));

/** From `least` at `from` to `most` at `to` (pixels); about `apart` pixels from one figure to the next. */
export const makeAxis = (
  { words, unit }: AxisWords,
  [least, most]: readonly [number, number],
  [from, to]: readonly [number, number],
  choice: MassUnit,
  apart = 64,
): Axis => {
  const span = most > least ? most - least : 1;
  const at = (value: number): number => from + ((value - least) / span) * (to - from);
  const shown = shownUnit(unit, Math.max(Math.abs(least), Math.abs(most)), choice);
  const count = Math.max(1, Math.floor(Math.abs(to - from) / apart));
  const [low, high] = [least / shown.per, (least + span) / shown.per];
  const decimals = decimalsOf(tickStep(low, high, count));
  return {
    at,
    of: (pixel) => least + ((pixel - from) / (to - from)) * span,
    ticks: ticks(low, high, count).map((value) => ({
      at: at(value * shown.per),
      label: formatNumber(value, decimals),
    })),
    title: shown.unit === "" ? capital(words) : `${capital(words)}, ${shown.unit}`,
  };
};

const MAX_DECIMALS = 4;

/** As many decimals as the value has, at most `most`: 0.75 and not 0.7500. */
export const decimalsShown = (value: number, most = MAX_DECIMALS): number => {
  for (let decimals = 0; decimals < most; decimals += 1)
    if (Math.abs(value - Number(value.toFixed(decimals))) < 10 ** -(most + 1)) return decimals;
  return most;
};

/** A value with its unit, to so many figures as it needs: "0.127 %/day", "12.4 t". */
export const valueText = (value: number | null, unit: string, choice: MassUnit): string => {
  if (value === null || !Number.isFinite(value)) return "–";
  const shown = shownUnit(unit, Math.abs(value), choice);
  const inUnit = value / shown.per;
  const size = Math.abs(inUnit);
  const most = size >= 1000 ? 0 : size >= 100 ? 1 : size >= 1 ? 2 : 4;
  const text = formatNumber(inUnit, decimalsShown(inUnit, most));
  return shown.unit === "" ? text : withUnit(text, shown.unit);
};
