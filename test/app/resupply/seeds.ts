/**
 * How many random problems a test of resupply looks at: few in every run; in `npm run test:long -- resupply` many, cut into
 * rounds of other seeds each, and with a figure of how many were truly compared.
 */
import type { TestContext } from "vitest";

const ROUNDS = Number(process.env["COLDSTOCK_RESUPPLY_ROUNDS"] ?? 1);
/** From 1; 0: a plain run. */
const ROUND = Number(process.env["COLDSTOCK_RESUPPLY_ROUND"] ?? 0);

/** Whether this is a round of the long run. */
export const isLong = ROUND > 0;

/** Seeds from 1 on: the first few in a plain run, else this round's part of many. */
export const seeds = (few: number, many: number): readonly number[] => {
  const all = Array.from({ length: isLong ? many : few }, (_, n) => n + 1);
  if (!isLong) return all;
  const share = many / ROUNDS;
  return all.slice(Math.round((ROUND - 1) * share), Math.round(ROUND * share));
};

/** What a plain run must have met at least, for its comparisons to say anything; one round of other seeds may have met none. */
export const atLeast = (few: number): number => (isLong ? 0 : few);

/** Adds to what a long run says that it did. */
export const count = ({ task }: TestContext, what: string, n: number): void => {
  const { figures = {} } = task.meta as { figures?: Record<string, number> };
  Object.assign(task.meta, { figures: { ...figures, [what]: (figures[what] ?? 0) + n } });
};
