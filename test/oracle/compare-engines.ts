/** One compiled plan run by the engine and by the older one kept beside it, under the same varied input: what differs. */
import type { CompiledPlan } from "../../app/forecast/compiled-plan.ts";
import { createEngine } from "../../app/forecast/propagate.ts";
import {
  lostKg,
  massKg,
  needAvailableKg,
  needDrawnKg,
  needMarginKg,
  needRequiredKg,
  needStatus,
  recordedKg,
} from "../../app/forecast/read-run.ts";
import { createTrace } from "../../app/forecast/trace.ts";
import { createEngine as createOracle } from "./propagate.ts";
import { createTrace as createOracleTrace } from "./trace.ts";

const DAY = 86_400_000;

/** A generator of numbers in [0, 1): mulberry32. */
export const chance = (seed: number): (() => number) => {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
};

type Engines = { readonly ours: ReturnType<typeof createEngine>; readonly oracle: ReturnType<typeof createOracle> };

/** How widely runs are varied. */
interface Spread {
  readonly slipDays: number;
  readonly lost: number;
  readonly off: number;
  readonly fastest: number;
}

const spreads: readonly Spread[] = [
  { slipDays: 0, lost: 0, off: 0, fastest: 1 },
  { slipDays: 2, lost: 0.1, off: 0, fastest: 1.5 },
  { slipDays: 12, lost: 0.05, off: 0.2, fastest: 3 },
  { slipDays: 158, lost: 0.3, off: 0.1, fastest: 60 },
];

/** Slips of whole days fall together with other events. */
const slip = (next: () => number, days: number): number => {
  const drawn = next() < 0.4 ? 0 : -days * Math.log(1 - next());
  return next() < 0.5 ? Math.round(drawn) * DAY : Math.round(drawn * DAY);
};

const vary = ({ ours, oracle }: Engines, next: () => number, spread: Spread): void => {
  for (const key of ["flightSlipMs", "sortieSlipMs"] as const)
    ours.input[key].forEach((_, n) => (ours.input[key][n] = next() < 0.5 ? 0 : slip(next, spread.slipDays)));
  ours.input.flightIsLost.forEach((_, n) => (ours.input.flightIsLost[n] = next() < spread.lost ? 1 : 0));
  ours.input.sortieIsOff.forEach((_, n) => (ours.input.sortieIsOff[n] = next() < spread.off ? 1 : 0));
  ours.input.rateFactor.forEach((_, n) => (ours.input.rateFactor[n] = spread.fastest ** (2 * next() - 0.5)));
  oracle.input.flightSlipMs.set(ours.input.flightSlipMs);
  oracle.input.sortieSlipMs.set(ours.input.sortieSlipMs);
  oracle.input.flightIsLost.set(ours.input.flightIsLost);
  oracle.input.sortieIsOff.set(ours.input.sortieIsOff);
  oracle.input.rateFactor.set(ours.input.rateFactor);
};

/** The first place at which two lists differ, in words; null: they are equal in every bit. */
const difference = (what: string, ours: ArrayLike<number>, oracle: ArrayLike<number>): string | null => {
  if (ours.length !== oracle.length) return `${what}: ${ours.length} and ${oracle.length} numbers`;
  for (let n = 0; n < ours.length; n += 1)
    if (!Object.is(ours[n], oracle[n])) return `${what} ${n}: ${ours[n]} and ${oracle[n]}`;
  return null;
};

const by = (count: number, read: (index: number) => number): Float64Array =>
  Float64Array.from({ length: count }, (_, n) => read(n));

/** Results that both have. What a need found is only compared for sorties that have left, or tried once. */
const compareResults = ({ ours, oracle }: Engines): string | null => {
  const { run } = ours;
  const { run: other } = oracle;
  const tanks = run.plan.tankIds.length;
  const needs = run.plan.needTank.length;
  const isTried = (need: number): boolean => other.sortieOutcome[run.needSortie[need] ?? 0] !== 4;
  const tried = (read: (need: number) => number) => by(needs, (need) => (isTried(need) ? read(need) : 0));
  return (
    difference(
      "level of tank",
      by(tanks, (n) => massKg(run, n)),
      other.massKg,
    ) ??
    difference(
      "loss of tank",
      by(tanks, (n) => lostKg(run, n)),
      other.lostKg,
    ) ??
    difference(
      "recorded of tank",
      by(tanks, (n) => recordedKg(run, n)),
      other.recordedKg,
    ) ??
    difference("status of sortie", run.sortieStatus, other.sortieStatus) ??
    difference("outcome of sortie", run.sortieOutcome, other.sortieOutcome) ??
    difference("loading of sortie", run.sortieLoadedAt, other.sortieLoadedAt) ??
    difference("lander away for sortie", run.sortieLanderAway, other.sortieLanderAway) ??
    difference("line delivers", run.lineDeliverableKg, other.lineDeliverableKg) ??
    difference("line loaded", run.lineLoadedKg, other.lineLoadedKg) ??
    difference(
      "available",
      tried((n) => needAvailableKg(run, n)),
      tried((n) => other.needAvailableKg[n] ?? 0),
    ) ??
    difference(
      "required",
      tried((n) => needRequiredKg(run, n)),
      tried((n) => other.needRequiredKg[n] ?? 0),
    ) ??
    difference(
      "margin",
      tried((n) => needMarginKg(run, n)),
      tried((n) => other.needMarginKg[n] ?? 0),
    ) ??
    difference(
      "need's status",
      tried((n) => needStatus(run, n)),
      tried((n) => other.needStatus[n] ?? 0),
    ) ??
    difference(
      "drawn",
      tried((n) => needDrawnKg(run, n)),
      tried((n) => other.needDrawnKg[n] ?? 0),
    )
  );
};

const compareTraces = ({ ours, oracle }: Engines): string | null => {
  const trace = createTrace(ours.run.plan);
  const other = createOracleTrace();
  ours.run.trace = trace;
  oracle.run.trace = other;
  ours.go();
  const run = oracle.go();
  ours.run.trace = null;
  oracle.run.trace = null;
  const columns = ["tank", "startAt", "endAt", "m0", "k", "c", "f"] as const;
  for (const column of columns) {
    const found = difference(`traced ${column}`, trace[column], other[column]);
    if (found !== null) return found;
  }
  if (JSON.stringify(trace.taken) !== JSON.stringify(other.taken)) return "taken by tank";
  if (JSON.stringify(trace.course) !== JSON.stringify(other.course)) return "course of a handover";
  if (JSON.stringify(trace.drawn) !== JSON.stringify(other.drawn)) return "drawn by tank";
  return (
    compareResults({ ours, oracle }) ??
    difference("line's end", trace.lineEndAt, run.lineEndAt) ??
    difference("line taken", trace.lineTakenKg, run.lineTakenKg) ??
    difference("line's draw", trace.lineOriginDrawnKg, run.lineOriginDrawnKg) ??
    difference("line's chilldown", trace.lineOriginChillKg, run.lineOriginChillKg)
  );
};

/**
 * Runs a plan `runs` times under varied input, every fifth time traced; the first difference in words, null: none.
 * `oraclePlan`: what the older engine runs, if not the same.
 */
export const compareEngines = (
  plan: CompiledPlan,
  runs: number,
  seed: number,
  oraclePlan: CompiledPlan = plan,
): string | null => {
  const engines = { ours: createEngine(plan), oracle: createOracle(oraclePlan) };
  const next = chance(seed);
  for (let run = 0; run < runs; run += 1) {
    vary(engines, next, spreads[run % spreads.length] as Spread);
    engines.ours.go();
    engines.oracle.go();
    const found = compareResults(engines) ?? (run % 5 === 0 ? compareTraces(engines) : null);
    if (found !== null) return `run ${run}: ${found}`;
  }
  return null;
};
