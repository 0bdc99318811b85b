/**
 * Plan and proof of one problem and one objective: a plan from real labels, the bound raised for as long as the proof run
 * ends empty, on ever finer cells. The bracket is honest at every moment.
 */
import { type Candidates, type Choice, makeCandidates } from "./candidates.ts";
import { type Objective, completionBound, relaxedProgramme, stillToCome } from "./completion-bound.ts";
import { type LabelRunAnswer, runLabels } from "./label-run.ts";
import { MAX_PROOF_PARTS, hasTransfers, makeLabelStep, resourceSize } from "./label-step.ts";
import { limitRows } from "./limit-rows.ts";
import type { SolveLinear } from "./linear.ts";
import { type Move, movesAt } from "./moves.ts";
import type { Problem } from "./problem.ts";
import { purseBounds } from "./purse-bounds.ts";
import { type Relaxation, makeRelaxation } from "./relaxation.ts";
import { type Steps, makeSteps } from "./steps.ts";

/** Why no choice of flights holds, as far as it is known. */
export type NoPlan =
  | { readonly kind: "lander away"; readonly sortie: number }
  /** A sortie before the first instant fails whatever flies. */
  | { readonly kind: "too early" }
  /** Full tanks are not enough; kg in the tanks at the window's start. */
  | {
      readonly kind: "maximum fill";
      readonly sortie: number;
      readonly pool: number;
      readonly needKg: number;
      readonly topKg: number;
    }
  /** Not at these instants within these limits; the window after which nothing held. */
  | { readonly kind: "limits"; readonly window: number | null };

export interface Bracket {
  /** No choice costs less. Infinity: none holds. */
  readonly lower: number;
  /** The best choice found costs this; Infinity: none yet. */
  readonly upper: number;
  readonly choice: Choice | null;
}

export interface Found extends Bracket {
  /** lower = upper, to the unit of cost. */
  readonly isProved: boolean;
  readonly isStopped: boolean;
  readonly noPlan: NoPlan | null;
  readonly labels: number;
  readonly rounds: number;
  /** Objective of the linear relaxation. */
  readonly relaxed: number;
}

export interface SearchAsked {
  readonly solve: SolveLinear;
  readonly endValue: 0 | 1;
  /** With the end valued: what is added to the objective to make it the loss, kg. */
  readonly restKg?: number;
  /** A choice that is known to hold, and its cost; without it the choice is run. */
  readonly known?: { readonly choice: Choice; readonly cost?: number } | undefined;
  /** Rounds of refinement at most; after the first plan only, where a plan is all that is asked. */
  readonly mostRounds: number;
  readonly isPlanEnough?: boolean;
  /** Labels in all at most. */
  readonly mostLabels: number;
  shouldStop(): boolean;
  onBracket?(bracket: Bracket): void;
}

/** What is made once of a problem and serves every objective. */
export interface Prepared {
  readonly problem: Problem;
  readonly candidates: Candidates;
  readonly steps: Steps;
  readonly relaxation: Relaxation | null;
  readonly noPlan: NoPlan | null;
}

const MAX_OF_WINDOW = 60_000;
/** A least loss counts as proved within this share of it, and within 1 kg. */
export const LOSS_SHARE = 1e-3;
const FIRST_CELL = 1 / 6;
const FIRST_BEAM = 300;
const MAX_BEAM = 20_000;

export const prepare = (problem: Problem): Prepared => {
  const candidates = makeCandidates(problem);
  const steps = makeSteps(candidates);
  const none = (noPlan: NoPlan): Prepared => ({ problem, candidates, steps, relaxation: null, noPlan });
  if (steps.awaySortie >= 0) return none({ kind: "lander away", sortie: steps.awaySortie });
  if (steps.start === null) return none({ kind: "too early" });
  const relaxation = makeRelaxation(candidates, steps);
  if (relaxation.impossible !== null)
    return { ...none({ kind: "maximum fill", ...relaxation.impossible }), relaxation };
  return { problem, candidates, steps, relaxation, noPlan: null };
};

/** The greatest step in which all costs rise: whole ones by their common divisor, others by a small share. */
const unitOf = (costs: readonly number[]): number => {
  const divisor = (a: number, b: number): number => (b === 0 ? a : divisor(b, a % b));
  const whole = costs.filter((cost) => cost > 0);
  if (whole.length === 0) return 1;
  if (whole.every((cost) => Number.isInteger(cost))) return whole.reduce(divisor);
  return Math.max(...whole) * 1e-4;
};

/** The move of each window that is a choice. */
const wayOf = (moves: readonly (readonly Move[])[], choice: Choice, lanes: number): Int32Array =>
  Int32Array.from(moves, (list, window) => {
    const wanted = choice.subarray(window * lanes, (window + 1) * lanes);
    const counted = (move: Move): boolean =>
      wanted.every((count, lane) => move.lanes.filter((of) => of === lane).length === count);
    return list.findIndex(counted);
  });

export const search = (prepared: Prepared, asked: SearchAsked): Found => {
  const { problem, candidates, steps, relaxation } = prepared;
  const { lanes, windows } = candidates;
  const blank = { choice: null, isStopped: false, labels: 0, rounds: 0, relaxed: 0 };
  if (prepared.noPlan !== null || relaxation === null)
    return { ...blank, lower: Infinity, upper: Infinity, isProved: true, noPlan: prepared.noPlan };
  const objective: Objective = { cost: Float64Array.from(problem.lanes, ({ cost }) => cost), endValue: asked.endValue };
  const limits = limitRows(candidates);
  const linear = asked.solve(relaxedProgramme(candidates, relaxation, objective, limits));
  if (linear.status === "infeasible") {
    const noPlan = { kind: "limits", window: null } as const;
    return { ...blank, lower: Infinity, upper: Infinity, isProved: true, noPlan };
  }
  const bound = completionBound(candidates, relaxation, objective, limits, linear);
  const purses = purseBounds(candidates, relaxation, objective.cost, limits, asked.solve);
  const moves = Array.from({ length: windows }, (_, window) => movesAt(candidates, relaxation, objective.cost, window));
  const full = makeLabelStep(candidates, steps, true, false);
  const countsResources = resourceSize(candidates) <= MAX_PROOF_PARTS;
  const forProof =
    countsResources && !hasTransfers(candidates) ? full : makeLabelStep(candidates, steps, countsResources, true);
  const most = moves.reduce((sum, list) => sum + Math.max(...list.map(({ cost }) => cost)), 0);
  // The bound itself, and not the solver's objective: that may err by its own tolerance.
  const startCome = full.start === null ? Infinity : stillToCome(bound, relaxation, 0, full.start, 0, full.lostFrom(0));
  const unit =
    asked.endValue === 1 ? Math.max(1, LOSS_SHARE * ((asked.restKg ?? 0) + startCome)) : unitOf([...objective.cost]);
  const up = (value: number): number => Math.ceil(value / unit - 1e-6) * unit;
  let lower = asked.endValue === 1 ? startCome : Math.max(0, up(startCome));
  let upper = asked.known?.cost ?? Infinity;
  let choice: Choice | null = asked.known?.cost === undefined ? null : asked.known.choice;
  let labels = 0;
  let rounds = 0;
  let emptiedAt: number | null = null;
  let triedAll = 0;
  let isStopped = false;
  let cell = asked.endValue === 1 ? FIRST_CELL / 4 : FIRST_CELL;
  let beam = FIRST_BEAM;
  const tell = (): void => asked.onBracket?.({ lower, upper, choice });
  const isOver = (): boolean => {
    isStopped ||= asked.shouldStop();
    return isStopped || labels >= asked.mostLabels;
  };
  const run = (mode: "proof" | "plan", target: number): LabelRunAnswer => {
    const labelStep = mode === "proof" ? forProof : full;
    const answer = runLabels(labelStep, moves, {
      mode,
      target,
      cell,
      beam: mode === "plan" ? beam : Infinity,
      mostLabels: MAX_OF_WINDOW,
      endCounts: asked.endValue === 1,
      stillToCome: (boundary, label, from) => {
        const lost = labelStep.lostFrom(boundary);
        const lostFrom = lost < 0 ? -1 : from + lost;
        if (purses.overdraws(boundary, label, from, lostFrom, from + labelStep.spentFrom(boundary))) return Infinity;
        return stillToCome(bound, relaxation, boundary, label, from, lostFrom);
      },
      shouldStop: asked.shouldStop,
    });
    labels += answer.labels;
    return answer;
  };
  const take = (answer: Pick<LabelRunAnswer, "cost" | "moves">): void => {
    const chosen: Choice = new Int32Array(windows * lanes);
    answer.moves.forEach((move, window) => {
      for (const lane of moves[window]?.[move]?.lanes ?? [])
        chosen[window * lanes + lane] = (chosen[window * lanes + lane] ?? 0) + 1;
    });
    upper = answer.cost;
    choice = chosen;
    tell();
  };
  /** What the best joined label did, by exact steps: with fine cells it mostly holds. */
  const takeIfItHolds = (way: Int32Array): void => {
    let label: Float64Array = new Float64Array(full.mostSize);
    let next: Float64Array = new Float64Array(full.mostSize);
    if (full.start !== null) label.set(full.start);
    let cost = 0;
    for (let window = 0; window < windows; window += 1) {
      const move = moves[window]?.[way[window] ?? 0];
      if (move === undefined || !full.step(window, label, 0, move, next, 0)) return;
      cost += move.cost;
      [label, next] = [next, label];
    }
    const whole = cost + stillToCome(bound, relaxation, windows, label, 0, full.lostFrom(windows));
    if (whole < upper) take({ cost: whole, moves: way });
  };
  const isClosed = (): boolean => lower >= upper - unit * (asked.endValue === 1 ? 1 : 1e-6);

  /** Looks for a plan: from the bound upwards until there is one, then between the bound and the best. */
  const lookForPlan = (): void => {
    if (choice === null) {
      // With what is left at the end counted, targets lie below 0 too: begin with anything at all.
      const last = asked.endValue === 1 ? Infinity : most;
      for (let target = asked.endValue === 1 ? Infinity : lower, stride = unit; !isOver(); stride *= 2) {
        const answer = run("plan", target);
        if (answer.status === "found") return take(answer);
        if (answer.status === "empty") emptiedAt = Math.max(emptiedAt ?? -1, answer.endedAt);
        if (target >= last) return;
        target = Math.min(last, target + stride);
      }
      return;
    }
    // Proof runs bring better plans with them, see below.
    if (asked.endValue === 1) {
      if (rounds > 1) return;
      const answer = run("plan", upper - unit);
      if (answer.status === "found") take(answer);
      return;
    }
    for (let isLast = false; !isClosed() && !isOver() && !isLast;) {
      const least = upper - unit;
      const middle = up((lower + least) / 2);
      const answer = run("plan", middle);
      if (answer.status === "found") take(answer);
      else {
        isLast = true;
        if (middle >= least || isOver()) return;
        const again = run("plan", least);
        if (again.status !== "found") return;
        take(again);
        isLast = false;
      }
    }
  };

  /** Raises the bound while proof runs end empty. */
  const raise = (): void => {
    for (let isLast = false; !isClosed() && !isOver() && !isLast;) {
      // Without a plan the question is whether there is any: all that may fly, before the count is raised one by one.
      if (choice === null && rounds > triedAll) {
        triedAll = rounds;
        const answer = run("proof", asked.endValue === 1 ? Infinity : most);
        if (answer.status === "empty") {
          emptiedAt = answer.endedAt;
          lower = Infinity;
          tell();
          return;
        }
      }
      if (asked.endValue === 1) {
        // Joined labels are at least as full and no dearer than any plan: what the best of them comes to is a bound.
        const answer = run("proof", upper - unit);
        if (answer.status === "limit") return;
        lower = Math.max(lower, answer.status === "empty" ? upper - unit : answer.cost);
        if (answer.status === "found") takeIfItHolds(answer.moves);
        tell();
        return;
      }
      const isNear = upper === Infinity || upper - lower <= 4 * unit;
      const target = isNear ? lower : up((lower + upper - unit) / 2);
      isLast = run("proof", target).status !== "empty";
      if (isLast) return;
      lower = target + unit;
      tell();
    }
  };

  if (asked.known !== undefined && choice === null) takeIfItHolds(wayOf(moves, asked.known.choice, lanes));
  tell();
  const canProve = full.isExact;
  while (!isOver() && !isClosed() && rounds < asked.mostRounds) {
    rounds += 1;
    lookForPlan();
    if (choice !== null && asked.isPlanEnough === true) break;
    if (canProve) raise();
    if (lower === Infinity) break;
    cell /= asked.endValue === 1 && upper - lower > 4 * unit ? 4 : 2;
    beam = Math.min(MAX_BEAM, beam * 2);
  }
  const isProved = isClosed() || lower === Infinity;
  const noPlan: NoPlan | null = choice === null && lower === Infinity ? { kind: "limits", window: emptiedAt } : null;
  return { lower, upper, choice, isProved, isStopped, noPlan, labels, rounds, relaxed: linear.objective };
};
