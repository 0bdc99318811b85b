/**
 * Sorties at other dates, within so many days: first so that every sortie is held, then so that fewer flights (less cost)
 * do. One sortie is tried at a time, each date by a search of its own, the nearest first, and where no one helps, two
 * together, neighbours before others; what is gained is kept and the others are tried again, and in the end every move
 * that is not needed is taken back. That no other dates do better is not proved by this.
 */
import type { PlanSnapshot } from "../entity/plan.ts";
import type { Entity } from "../entity/entities.ts";
import { DAY_MS } from "../ground/quantity.ts";
import { windowFrom, windowsOf } from "../entity/windows.ts";
import type { Working } from "../work/working.ts";
import type { ResupplyBracket, SortieMoved } from "./answer.ts";
import type { ResupplyAsked } from "./asked.ts";
import type { SolveLinear } from "./linear.ts";
import { makeProblem } from "./make-problem.ts";
import { prepare, search } from "./search.ts";
import { withSortiesMoved } from "./sorties-moved.ts";
import { searchWhatHolds } from "./what-holds.ts";

/** Days that are tried either way. */
const STEPS = [1, 2, 3, 5, 8, 13, 21, 34, 55];
const MAX_LABELS = 150_000;
const MAX_ROUNDS = 2;
/** Pairs of dates that are tried in all. */
const MAX_PAIRS = 400;

/** Days by sortie, of those that move. */
type Shifts = ReadonlyMap<string, number>;

const movedBy = (plan: PlanSnapshot, shifts: Shifts): readonly SortieMoved[] =>
  plan.sorties.flatMap(({ id: sortieId, loadAt, returnAt }) => {
    const byMs = Math.round((shifts.get(sortieId) ?? 0) * DAY_MS);
    return byMs === 0 ? [] : [{ sortieId, loadAt: loadAt + byMs, returnAt: returnAt + byMs }];
  });

/** Days by which a sortie may move, the nearest first: to open windows alone where its depot has windows. */
const daysFor = (plan: PlanSnapshot, { loadAt, depotId }: Entity<"sortie">, most: number): readonly number[] => {
  const depot = plan.depots.find(({ id }) => id === depotId);
  const windows = depot === undefined ? null : windowsOf(depot);
  const instants = [...new Set([...STEPS.filter((days) => days < most), most])]
    .flatMap((days) => [loadAt + days * DAY_MS, loadAt - days * DAY_MS])
    .map((at) => (windows === null ? at : windowFrom(windows, at)));
  return [...new Set(instants)]
    .filter((at) => at !== loadAt && Math.abs(at - loadAt) <= most * DAY_MS)
    .filter((at) => at > plan.asOfAt && at <= plan.horizonAt)
    .map((at) => (at - loadAt) / DAY_MS);
};

/** Sorties at the dates found. Throws as {@link makeProblem} does. */
export const moveSorties = (
  plan: PlanSnapshot,
  asked: ResupplyAsked,
  solve: SolveLinear,
  working: Working<ResupplyBracket>,
): readonly SortieMoved[] => {
  const { untilAt, moveSortiesDays } = asked;
  const movable = plan.sorties.filter(
    ({ status, loadAt }) => status === "planned" && loadAt > plan.asOfAt && (untilAt === null || loadAt <= untilAt),
  );
  /** Which sorties count does not hang on where they are moved to. */
  const counted = { ...asked, untilAt: null };
  const left = new Set(
    plan.sorties
      .filter((row) => untilAt !== null && row.status === "planned" && row.loadAt > untilAt)
      .map(({ id }) => id),
  );
  const planOf = (shifts: Shifts): PlanSnapshot => {
    const moved = withSortiesMoved(plan, movedBy(plan, shifts));
    return left.size === 0 ? moved : { ...moved, sorties: moved.sorties.filter(({ id }) => !left.has(id)) };
  };
  const quiet = {
    shouldStop: () => working.shouldStop(),
    tell: () => working.tell({ share: null, words: "Trying other dates of the sorties" }),
  };
  const isStopped = (): boolean => working.shouldStop();
  const withShift = (shifts: Shifts, sortieId: string, days: number): Shifts => {
    const next = new Map(shifts);
    if (days === 0) next.delete(sortieId);
    else next.set(sortieId, days);
    return next;
  };
  /** How many cannot be held, and what the plan costs. */
  const standing = (shifts: Shifts): { unheld: number; cost: number; step: number } => {
    const { unheld, found, made } = searchWhatHolds(planOf(shifts), counted, solve, quiet);
    const { lanes } = made.problem;
    const step = Math.min(...lanes.map(({ cost }) => cost).filter((cost) => cost > 0), 1);
    return { unheld: found.choice === null ? Infinity : unheld.length, cost: found.upper, step };
  };
  /** Whether everything is held for no more than so much. */
  const canDo = (shifts: Shifts, most: number): boolean => {
    quiet.tell();
    const { problem } = makeProblem(planOf(shifts), counted);
    const takes = Float64Array.from(problem.lanes, ({ cost }) => cost);
    const purse = { kind: asked.least === "cost" ? ("budget" as const) : ("flights" as const), most, takes };
    const found = search(prepare({ ...problem, purses: [...problem.purses, purse] }), {
      solve,
      endValue: 0,
      isPlanEnough: true,
      mostRounds: MAX_ROUNDS,
      mostLabels: MAX_LABELS,
      shouldStop: quiet.shouldStop,
    });
    return found.choice !== null;
  };
  let shifts: Shifts = new Map();
  let now = standing(shifts);
  const inOrder = movable.toSorted((a, b) => a.loadAt - b.loadAt);
  const daysOf = new Map(inOrder.map((row) => [row.id, daysFor(plan, row, moveSortiesDays)]));
  const otherDays = (sortieId: string): readonly number[] =>
    [0, ...(daysOf.get(sortieId) ?? [])].filter((days) => days !== (shifts.get(sortieId) ?? 0));
  let pairsLeft = MAX_PAIRS;
  /** Two sorties at other dates together: those that load next to each other first. */
  function* pairs(): Generator<Shifts> {
    for (let apart = 1; apart < inOrder.length; apart += 1)
      for (let n = 0; n + apart < inOrder.length; n += 1) {
        const [first, second] = [inOrder[n]?.id ?? "", inOrder[n + apart]?.id ?? ""];
        for (const days of otherDays(first))
          for (const also of otherDays(second)) {
            pairsLeft -= 1;
            if (pairsLeft < 0) return;
            yield withShift(withShift(shifts, first, days), second, also);
          }
      }
  }
  /** The first move of one sortie, or of two, that is better by a test; null: none. */
  const firstBetter = (isBetter: (tried: Shifts) => boolean): Shifts | null => {
    for (const row of movable)
      for (const days of daysOf.get(row.id) ?? []) {
        if (isStopped()) return null;
        const tried = withShift(shifts, row.id, days);
        if (shifts.get(row.id) !== days && isBetter(tried)) return tried;
      }
    for (const tried of pairs()) {
      if (isStopped()) return null;
      if (isBetter(tried)) return tried;
    }
    return null;
  };
  for (let better: Shifts | null = shifts; better !== null && now.unheld > 0 && !isStopped();) {
    better = firstBetter((tried) => {
      const then = standing(tried);
      if (then.unheld >= now.unheld) return false;
      now = then;
      return true;
    });
    shifts = better ?? shifts;
  }
  // What cannot be held at all is not traded against flights.
  if (now.unheld === 0) {
    for (let better: Shifts | null = shifts; better !== null && !isStopped();) {
      // A cheaper plan is cheaper by no less than this, or by so little that nobody would move a sortie for it.
      const most = asked.least === "cost" ? now.cost * (1 - 1e-3) : now.cost - now.step;
      if (most < 0) break;
      better = firstBetter((tried) => canDo(tried, most));
      if (better === null) break;
      shifts = better;
      now = standing(shifts);
    }
    for (const sortieId of shifts.keys())
      if (!isStopped() && canDo(withShift(shifts, sortieId, 0), now.cost)) shifts = withShift(shifts, sortieId, 0);
  }
  return movedBy(plan, shifts);
};
