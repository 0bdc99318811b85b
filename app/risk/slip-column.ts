/** Slips by column: 64 replications of one subject's slip at a time, in whole milliseconds. */
import { missingCase } from "../ground/missing-case.ts";
import type { SlipLaw } from "../entity/risk-input.ts";
import { DAY_MS } from "../ground/quantity.ts";
import { normalQuantile } from "./normal.ts";
import { logMeanOf, noneShareOf, quantileOfAll, slipQuantile } from "./slip-law.ts";
import { BLOCK, fillUnits } from "./stream.ts";

/** A law with its numbers worked out. */
export interface SlipSampler {
  readonly kind: "fixed" | "exponential" | "log-normal" | "triangular" | "observed" | "quantiles";
  readonly noneShare: number;
  /** fixed: days. exponential: mean. log-normal: μ and σ. triangular: low, mode, high. */
  readonly a: number;
  readonly b: number;
  readonly c: number;
  /** observed: ascending. quantiles: at equal steps. Days. */
  readonly list: Float64Array;
}

/** How an input is taken: as it is stated, at its median, or as the plan has it. */
export type Taken = "drawn" | "at its median" | "as planned";

const EMPTY = new Float64Array(0);

const fixed = (days: number): SlipSampler => ({ kind: "fixed", noneShare: 0, a: days, b: 0, c: 0, list: EMPTY });

/** `leadDays`: from the as-of instant to the planned date. */
export const slipSampler = (law: SlipLaw, leadDays: number, taken: Taken): SlipSampler => {
  if (law.kind === "none" || taken === "as planned") return fixed(0);
  if (taken === "at its median") return fixed(quantileOfAll(law, 0.5, leadDays));
  const noneShare = noneShareOf(law);
  switch (law.kind) {
    case "by lead time":
    case "exponential": {
      // The quantile at 1 − 1/e is the mean.
      const meanDays = law.kind === "exponential" ? law.meanDays : law.perDay * Math.max(0, leadDays);
      return { kind: "exponential", noneShare, a: meanDays, b: 0, c: 0, list: EMPTY };
    }
    case "log-normal":
      return { kind: "log-normal", noneShare, a: logMeanOf(law.meanDays, law.sigma), b: law.sigma, c: 0, list: EMPTY };
    case "triangular":
      return { kind: "triangular", noneShare, a: law.lowDays, b: law.modeDays, c: law.highDays, list: EMPTY };
    case "observed":
      return { kind: "observed", noneShare, a: 0, b: 0, c: 0, list: Float64Array.from(law.days).sort() };
    case "quantiles":
      return { kind: "quantiles", noneShare, a: 0, b: 0, c: 0, list: Float64Array.from(law.days) };
    default:
      return missingCase(law);
  }
};

/** Numbers that one column takes from its stream, whatever its law: whether it slips at all, and how far. */
const units = new Float64Array(2 * BLOCK);

const exponential = (
  out: Float64Array,
  at: number,
  { noneShare, a }: SlipSampler,
  isWanted: Uint8Array | null,
): void => {
  for (let r = 0; r < BLOCK; r += 1) {
    const isNone = (units[r] as number) < noneShare || (isWanted !== null && isWanted[at + r] === 0);
    out[at + r] = isNone ? 0 : Math.round(-a * DAY_MS * Math.log1p(-(units[BLOCK + r] as number)));
  }
};

const logNormal = (out: Float64Array, at: number, { noneShare, a, b }: SlipSampler): void => {
  for (let r = 0; r < BLOCK; r += 1)
    out[at + r] =
      (units[r] as number) < noneShare
        ? 0
        : Math.round(DAY_MS * Math.exp(a + b * normalQuantile(units[BLOCK + r] as number)));
};

const listed = (out: Float64Array, at: number, { kind, noneShare, list }: SlipSampler): void => {
  for (let r = 0; r < BLOCK; r += 1) {
    const u = units[BLOCK + r] as number;
    let days: number;
    if (kind === "observed") days = list[Math.floor(u * list.length)] as number;
    else {
      const position = u * (list.length - 1);
      const before = Math.floor(position);
      const from = list[before] as number;
      days = from + (position - before) * ((list[before + 1] as number) - from);
    }
    out[at + r] = (units[r] as number) < noneShare ? 0 : Math.round(days * DAY_MS);
  }
};

const triangular = (out: Float64Array, at: number, { noneShare, a, b, c }: SlipSampler): void => {
  const law = { kind: "triangular", noneShare, lowDays: a, modeDays: b, highDays: c } as const;
  for (let r = 0; r < BLOCK; r += 1)
    out[at + r] =
      (units[r] as number) < noneShare ? 0 : Math.round(DAY_MS * slipQuantile(law, units[BLOCK + r] as number, 0));
};

/**
 * Draws `out[at .. at + 64)`, ms, from the stream that stands ready. Every law takes the same numbers of the stream, so
 * that a changed law moves no other input, and a changed share of none only those that it touches. `isWanted[at …]`: 0
 * where nobody asks for it; what stands there then is not said.
 */
export const drawSlips = (
  out: Float64Array,
  at: number,
  sampler: SlipSampler,
  isWanted: Uint8Array | null = null,
): void => {
  fillUnits(units, 2 * BLOCK);
  switch (sampler.kind) {
    case "fixed":
      out.fill(Math.round(sampler.a * DAY_MS), at, at + BLOCK);
      break;
    case "exponential":
      exponential(out, at, sampler, isWanted);
      break;
    case "log-normal":
      logNormal(out, at, sampler);
      break;
    case "triangular":
      triangular(out, at, sampler);
      break;
    case "observed":
    case "quantiles":
      listed(out, at, sampler);
      break;
    default:
      return missingCase(sampler.kind);
  }
};
