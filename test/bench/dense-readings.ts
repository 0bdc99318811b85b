/** A hundred thousand gauge readings of one tank of the demonstration, close to the level of its books, over five recorded months. */
import { levelBefore } from "../../app/forecast/curve.ts";
import { planView } from "../../app/ledger/plan-view.ts";
import type { LedgerBooks } from "../../app/ledger/books.ts";

export const DENSE_READINGS = 100_000;
const FIRST_AT = Date.UTC(2031, 0, 1, 12);
/** 129 s: they end before the as-of instant of the demonstration. */
const STEP_MS = 129_000;
const SIGMA_KG = 51;

export const denseHeadings = ["tank", "at", "kg", "sigma kg"] as const;

/** Tank, instant, kg, σ; they scatter by less than their σ. `store`: of the demonstration. */
export const denseReadings = (
  store: LedgerBooks,
): readonly (readonly [tank: string, at: number, kg: number, sigmaKg: number])[] => {
  const past = planView(store, "baseline").past.find(({ tankId }) => tankId === "tarn-hydrogen");
  return Array.from({ length: DENSE_READINGS }, (_unused, index) => {
    const at = FIRST_AT + (index + 1) * STEP_MS;
    const kg = levelBefore(past?.segments ?? [], at) + 30 * Math.sin(index * 1.7);
    return ["Tarn hydrogen", at, Math.round(kg * 10) / 10, SIGMA_KG] as const;
  });
};

/** The same as a table of text. */
export const denseCsv = (store: LedgerBooks): string =>
  [
    denseHeadings.join(","),
    ...denseReadings(store).map(([tank, at, kg, sigma]) => `${tank},${new Date(at).toISOString()},${kg},${sigma}`),
  ].join("\r\n");
