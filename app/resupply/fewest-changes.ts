/**
 * The last thing asked: of plans as good as the one found, one that changes little of what is planned, so that only what
 * must move moves: a search of its own. For losses, which are least within the tolerance of their proof, it begins with
 * planned flights put back in place of added ones one by one. That no plan changes less is not claimed.
 */
import { NOTHING_KG } from "../forecast/pool.ts";
import type { Choice } from "./candidates.ts";
import { makeLabelStep } from "./label-step.ts";
import type { SolveLinear } from "./linear.ts";
import { type Move, movesAt } from "./moves.ts";
import type { Problem, Purse } from "./problem.ts";
import { worthOf } from "./relaxation.ts";
import { type Prepared, prepare, search } from "./search.ts";

/** A unit of cost outweighs so many changes. */
const CHANGE_WEIGHT = 1000;
const MAX_LABELS = 300_000;
const MAX_ROUNDS = 3;
/** Costs are counted in thousandths where that is exact. */
const PARTS = 1000;
/** Else in this share of the dearest. */
const SHARE = 1e-4;

const divisor = (a: number, b: number): number => (b === 0 ? a : divisor(b, a % b));

/** The step in which costs are counted, and whether all are whole numbers of it. */
const stepOf = (costs: readonly number[]): { step: number; isExact: boolean } => {
  const paid = costs.filter((cost) => cost > 0).map((cost) => cost * PARTS);
  if (paid.length === 0) return { step: 1, isExact: true };
  const whole = paid.map(Math.round);
  if (whole.every((cost, n) => Math.abs(cost - (paid[n] ?? 0)) < 1e-6))
    return { step: whole.reduce(divisor) / PARTS, isExact: true };
  return { step: Math.max(...costs) * SHARE, isExact: false };
};

/** Whether there is anything planned that may stay or go. */
const hasPlanned = ({ lanes }: Problem): boolean => lanes.some(({ planned }) => planned !== null);

/** Of plans that cost no more, one that adds and leaves out little. */
export const fewestChanges = (
  { problem }: Prepared,
  choice: Choice,
  solve: SolveLinear,
  shouldStop: () => boolean,
): Choice => {
  if (!hasPlanned(problem) || shouldStop()) return choice;
  const { step, isExact } = stepOf(problem.lanes.map(({ cost }) => cost));
  const lanes = problem.lanes.map((row) => ({
    ...row,
    cost: Math.max(0, Math.round(row.cost / step) * CHANGE_WEIGHT + (row.planned === null ? 1 : -1)),
  }));
  const sum = (of: readonly { readonly cost: number }[]): number =>
    choice.reduce((total, count, cell) => total + count * (of[cell % lanes.length]?.cost ?? 0), 0);
  // Rounded costs must not buy fewer changes with a dearer plan.
  const purse: Purse = {
    kind: "budget",
    most: sum(problem.lanes),
    takes: Float64Array.from(problem.lanes, ({ cost }) => cost),
  };
  const found = search(prepare({ ...problem, lanes, purses: isExact ? problem.purses : [...problem.purses, purse] }), {
    solve,
    endValue: 0,
    known: { choice, cost: sum(lanes) },
    mostRounds: MAX_ROUNDS,
    mostLabels: MAX_LABELS,
    shouldStop,
  });
  return found.choice ?? choice;
};

/** What is in the tanks that count at the end of a choice, kg; null: it does not hold, or not within the limits. */
const endOf = (
  { candidates, relaxation }: Prepared,
  moves: readonly (readonly Move[])[],
  step: ReturnType<typeof makeLabelStep>,
  choice: Choice,
): number | null => {
  const { windows, lanes } = candidates;
  if (relaxation === null || step.start === null) return null;
  let label: Float64Array = new Float64Array(step.mostSize);
  let next: Float64Array = new Float64Array(step.mostSize);
  label.set(step.start);
  for (let window = 0; window < windows; window += 1) {
    const wanted = choice.subarray(window * lanes, (window + 1) * lanes);
    const move = moves[window]?.find((row) =>
      wanted.every((count, lane) => row.lanes.filter((of) => of === lane).length === count),
    );
    if (move === undefined || !step.step(window, label, 0, move, next, 0)) return null;
    [label, next] = [next, label];
  }
  return relaxation.pools.reduce((sum, _, pool) => sum + worthOf(relaxation, windows, pool, label, 0), 0);
};

/** What a choice loads less what is left of it at the end, kg; Infinity: it does not hold. */
type LossOf = (choice: Choice) => number;

const makeLossOf = (prepared: Prepared): LossOf => {
  const { problem, candidates, steps, relaxation } = prepared;
  if (relaxation === null) return () => Infinity;
  const { lanes, windows } = candidates;
  const cost = Float64Array.from(problem.lanes, (row) => row.cost);
  const moves = Array.from({ length: windows }, (_, window) => movesAt(candidates, relaxation, cost, window));
  const step = makeLabelStep(candidates, steps, true, false);
  return (choice) => {
    const endKg = endOf(prepared, moves, step, choice);
    if (endKg === null) return Infinity;
    return choice.reduce((sum, count, cell) => sum + count * (cost[cell % lanes] ?? 0), -endKg);
  };
};

/** Planned flights put back for added ones, as long as no more is lost than so much. */
const putBack = (
  { problem, candidates }: Prepared,
  choice: Choice,
  lossOf: LossOf,
  mostKg: number,
  shouldStop: () => boolean,
): Choice => {
  const { lanes, free } = candidates;
  const isPlanned = (cell: number): boolean => problem.lanes[cell % lanes]?.planned !== null;
  let best = choice;
  for (let cell = 0; cell < choice.length; cell += 1) {
    if (!isPlanned(cell) || (free[cell] ?? 0) === 0 || best[cell] !== 0) continue;
    // The added flight that arrives nearest first: most likely it stands where this one stood.
    const added = [...best.keys()]
      .filter((other) => (best[other] ?? 0) > 0 && !isPlanned(other))
      .toSorted((a, b) => Math.abs(a - cell) - Math.abs(b - cell));
    for (const other of added) {
      if (shouldStop()) return best;
      const tried = best.slice();
      tried[cell] = 1;
      tried[other] = (tried[other] ?? 0) - 1;
      if (lossOf(tried) > mostKg) continue;
      best = tried;
      break;
    }
  }
  return best;
};

/**
 * Of plans with as many flights that lose no more than `slackKg` above what the choice loses, one that adds little; how
 * much more it loses, kg. `prepared`: with the kilograms of a flight as its cost, and the number of flights as a purse.
 */
export const fewestOfLoss = (
  prepared: Prepared,
  choice: Choice,
  slackKg: number,
  solve: SolveLinear,
  shouldStop: () => boolean,
): { choice: Choice; moreKg: number } => {
  const { problem } = prepared;
  if (!hasPlanned(problem) || prepared.relaxation === null || shouldStop()) return { choice, moreKg: 0 };
  const lossOf = makeLossOf(prepared);
  const leastKg = lossOf(choice);
  const mostKg = leastKg + slackKg + NOTHING_KG;
  const begun = putBack(prepared, choice, lossOf, mostKg, shouldStop);
  // With as many flights in all, each that is added is one that is left out or was not needed.
  const lanes = problem.lanes.map((row) => ({ ...row, cost: row.planned === null ? 1 : 0 }));
  // Below it by what purses forgive.
  const most = mostKg - 2e-6 * Math.max(1, Math.abs(mostKg));
  const loss: Purse = { kind: "loss", most, takes: Float64Array.from(problem.lanes, ({ cost }) => cost) };
  const found = search(prepare({ ...problem, lanes, purses: [...problem.purses, loss] }), {
    solve,
    endValue: 0,
    known: {
      choice: begun,
      cost: begun.reduce((sum, count, cell) => sum + count * (lanes[cell % lanes.length]?.cost ?? 0), 0),
    },
    mostRounds: MAX_ROUNDS,
    mostLabels: MAX_LABELS,
    shouldStop,
  });
  const best = found.choice ?? begun;
  const moreKg = lossOf(best) - leastKg;
  return moreKg <= slackKg + 2 * NOTHING_KG
    ? { choice: best, moreKg }
    : { choice: begun, moreKg: lossOf(begun) - leastKg };
};
