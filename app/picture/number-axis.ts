/** An axis of numbers for the pictures of a study: where values lie, round figures on it, and masses in t where they are large. */
import { tickStep, ticks } from "d3-array";
import type { MassUnit } from "../format/mass.ts";
import { formatNumber } from "../format/number.ts";
import { shownUnit } from "../study/shown-figure.ts";
import { capitalised } from "../words/counted.ts";
import type { Mark } from "./panel.ts";

export interface AxisWords {
  readonly words: string;
  /** As the study counts; "": a number. */
  readonly unit: string;
}

export interface Axis {
  /** Place of a value. */
  readonly at: (value: number) => number;
  /** The value at a place. */
  readonly of: (place: number) => number;
  readonly ticks: readonly Mark[];
  /** "Loss factor", "Size of Tarn oxygen, t". */
  readonly title: string;
}

const decimalsOf = (step: number): number => Math.max(0, Math.min(6, -Math.floor(Math.log10(step) + 1e-9)));

/** From the least to the most of the values; null: there is none. */
export const reachOf = (values: readonly number[]): readonly [number, number] | null => {
  const [least, most] = values.reduce(
    ([a, b], value) => [Math.min(a, value), Math.max(b, value)],
    [Infinity, -Infinity],
  );
  return least <= most ? [least, most] : null;
};

/** From `least` at `from` to `most` at `to`; about `apart` from one figure to the next, in the lengths of the picture. */
export const makeAxis = (
  { words, unit }: AxisWords,
  [least, most]: readonly [number, number],
  [from, to]: readonly [number, number],
  choice: MassUnit,
  apart = 64,
): Axis => {
  const span = most > least ? most - least : 1;
  const at = (value: number): number => from + ((value - least) / span) * (to - from);
  const shown = shownUnit(unit, choice, Math.max(Math.abs(least), Math.abs(most)));
  const count = Math.max(1, Math.floor(Math.abs(to - from) / apart));
  const [low, high] = [least / shown.per, (least + span) / shown.per];
  const decimals = decimalsOf(tickStep(low, high, count));
  return {
    at,
    of: (place) => least + ((place - from) / (to - from)) * span,
    ticks: ticks(low, high, count).map((value) => ({
      at: at(value * shown.per),
      label: formatNumber(value, decimals),
    })),
    title: shown.unit === "" ? capitalised(words) : `${capitalised(words)}, ${shown.unit}`,
  };
};
