/** What one propagation takes beside the plan (slips, losses, rate factors) and the state and results it writes. */
import { EVENT, type CompiledPlan } from "../../app/forecast/compiled-plan.ts";
import type { Trace } from "./trace.ts";

/** How this run differs from the plan. All of it may be changed between runs; nothing is copied. */
export interface RunInput {
  /** Later departure and arrival, ms. */
  readonly flightSlipMs: Float64Array;
  /** 1: departs and never arrives. */
  readonly flightIsLost: Uint8Array;
  /** Later loading and return, ms. */
  readonly sortieSlipMs: Float64Array;
  /** 1: not flown. */
  readonly sortieIsOff: Uint8Array;
  /** Factor on k and c of each tank. */
  readonly rateFactor: Float64Array;
}

/** The plan as it stands: no slip, no loss, factors 1. */
export const createRunInput = (plan: CompiledPlan): RunInput => ({
  flightSlipMs: new Float64Array(plan.flightIds.length),
  flightIsLost: new Uint8Array(plan.flightIds.length),
  sortieSlipMs: new Float64Array(plan.sortieIds.length),
  sortieIsOff: new Uint8Array(plan.sortieIds.length),
  rateFactor: new Float64Array(plan.tankIds.length).fill(1),
});

/** Status of a sortie at its planned loading, as a number: the greater, the worse. */
export const STATUS = { supplied: 0, thin: 1, short: 2 } as const;

/** pending: the run ended before (horizon, or not flown). */
export const OUTCOME = { flies: 0, waitsAndFlies: 1, standsDown: 2, waiting: 3, pending: 4 } as const;

/** Stands for no event; −1 stands for the end of the list. */
export const NO_EVENT = -2;

/** State and results of a run; made once, overwritten by each run. */
export interface Run {
  readonly plan: CompiledPlan;
  /** Level and its instant, rates and metered flow of every tank. */
  readonly massKg: Float64Array;
  readonly at: Float64Array;
  readonly k: Float64Array;
  readonly c: Float64Array;
  readonly f: Float64Array;
  /** Lost from each tank so far. */
  readonly lostKg: Float64Array;
  /** Recorded metered inflow, a part of f, and since when; and what records changed of each tank's level. */
  readonly recordFlow: Float64Array;
  readonly recordFlowAt: Float64Array;
  readonly recordedKg: Float64Array;
  /** Tanks of each pool in order of filling and of drawing, laid out as poolTanks. */
  readonly fillOrder: Int32Array;
  readonly drawOrder: Int32Array;

  /** Running metered handovers (line indices) and, per line, what is still to flow into the tanks and its throttling. */
  readonly flows: Int32Array;
  flowCount: number;
  readonly flowLeftKg: Float64Array;
  readonly flowShare: Float64Array;
  readonly flowEndAt: Float64Array;
  /** Next change of a pool's metered flow, and the tank (fills) or line (ends) that it concerns; −1: none. */
  readonly poolFlowAt: Float64Array;
  readonly poolFlowTank: Int32Array;
  readonly poolFlowLine: Int32Array;
  readonly poolFlowCount: Int32Array;
  readonly poolSettledAt: Float64Array;

  /** Instants at which a sortie tries again (2·sortie) and returns (2·sortie + 1), and those that stand. */
  readonly dueAt: Float64Array;
  readonly due: Int32Array;
  dueCount: number;
  /** Sorties that wait for a delivery at a depot without windows. */
  anyTimeWaiting: number;
  readonly landerIsAway: Uint8Array;

  /** Lines that draw at a depot: what they bring depends on the run. The others are worked out once. */
  readonly drawingLines: Int32Array;
  /** Everything that begins a run at 0, at NaN (nothing happened), and at Infinity (nothing due), each in one piece. */
  readonly zeros: Float64Array;
  readonly nans: Float64Array;
  readonly infinities: Float64Array;

  /** Results by flight line. */
  readonly lineLoadedKg: Float64Array;
  readonly lineOriginChillKg: Float64Array;
  readonly lineOriginDrawnKg: Float64Array;
  readonly lineArrivedKg: Float64Array;
  readonly lineOfferedKg: Float64Array;
  /** What could be taken of what is offered, after chilldown and loss. */
  readonly lineDeliverableKg: Float64Array;
  readonly lineTakenKg: Float64Array;
  /** End of the handover; NaN: has not arrived. */
  readonly lineEndAt: Float64Array;

  /** Results by sortie. loadedAt NaN: not loaded. */
  readonly sortieStatus: Uint8Array;
  readonly sortieOutcome: Uint8Array;
  readonly sortieLoadedAt: Float64Array;
  /** 1: its lander was away at the planned loading. */
  readonly sortieLanderAway: Uint8Array;
  /** By need: at the planned loading… */
  readonly needAvailableKg: Float64Array;
  readonly needRequiredKg: Float64Array;
  readonly needMarginKg: Float64Array;
  readonly needStatus: Uint8Array;
  /** …and at the last try; drawn and aboard stand for the actual one. */
  readonly needWantedKg: Float64Array;
  readonly needFreeKg: Float64Array;
  readonly needAboardKg: Float64Array;
  readonly needDrawnKg: Float64Array;
  /** What left beyond the need, and comes home with what is left of it. */
  readonly needSurplusKg: Float64Array;

  /** This run's order of the known events, and their instants. */
  readonly order: Int32Array;
  readonly eventAt: Float64Array;
  /** Place in `order` of what happens next. */
  next: number;
  /** A known event that happens at `lateAt` instead of its time; none: NO_EVENT. */
  lateEvent: number;
  lateAt: number;
  /** The last run's order was not the plan's. */
  isReordered: boolean;
  /** Where the course is written down; null: results only. */
  trace: Trace | null;
}

/** Hands out parts of one array. */
const parts = (total: number, value: number) => {
  const whole = new Float64Array(total).fill(value);
  let next = 0;
  return {
    whole,
    take: (length: number): Float64Array => {
      next += length;
      return whole.subarray(next - length, next);
    },
  };
};

const doubles = (length: number): Float64Array => new Float64Array(length);

/** The room for runs of a plan. */
export const createRun = (plan: CompiledPlan): Run => {
  const tanks = plan.tankIds.length;
  const pools = plan.poolKeys.length;
  const lines = plan.linePropellantIds.length;
  const sorties = plan.sortieIds.length;
  const needs = plan.needPropellantIds.length;
  const zeros = parts(5 * tanks + 3 * lines + needs, 0);
  const nans = parts(lines + sorties, Number.NaN);
  const infinities = parts(pools + 2 * sorties, Infinity);
  return {
    plan,
    massKg: doubles(tanks),
    at: doubles(tanks),
    k: doubles(tanks),
    c: doubles(tanks),
    f: zeros.take(tanks),
    lostKg: zeros.take(tanks),
    recordFlow: zeros.take(tanks),
    recordFlowAt: zeros.take(tanks),
    recordedKg: zeros.take(tanks),
    fillOrder: plan.poolTanks.slice(),
    drawOrder: plan.poolTanks.slice(),
    flows: new Int32Array(lines),
    flowCount: 0,
    flowLeftKg: doubles(lines),
    flowShare: doubles(lines),
    flowEndAt: doubles(lines),
    poolFlowAt: infinities.take(pools),
    poolFlowTank: new Int32Array(pools),
    poolFlowLine: new Int32Array(pools),
    poolFlowCount: new Int32Array(pools),
    poolSettledAt: doubles(pools),
    dueAt: infinities.take(2 * sorties),
    due: new Int32Array(2 * sorties),
    dueCount: 0,
    anyTimeWaiting: 0,
    landerIsAway: new Uint8Array(plan.landerIds.length),
    drawingLines: Int32Array.from(
      [...plan.lineOriginPool.keys()].filter((line) => (plan.lineOriginPool[line] ?? -1) >= 0),
    ),
    zeros: zeros.whole,
    nans: nans.whole,
    infinities: infinities.whole,
    lineLoadedKg: doubles(lines),
    lineOriginChillKg: zeros.take(lines),
    lineOriginDrawnKg: zeros.take(lines),
    lineArrivedKg: doubles(lines),
    lineOfferedKg: doubles(lines),
    lineDeliverableKg: doubles(lines),
    lineTakenKg: zeros.take(lines),
    lineEndAt: nans.take(lines),
    sortieStatus: new Uint8Array(sorties),
    sortieOutcome: new Uint8Array(sorties),
    sortieLoadedAt: nans.take(sorties),
    sortieLanderAway: new Uint8Array(sorties),
    needAvailableKg: doubles(needs),
    needRequiredKg: doubles(needs),
    needMarginKg: doubles(needs),
    needStatus: new Uint8Array(needs),
    needWantedKg: doubles(needs),
    needFreeKg: doubles(needs),
    needAboardKg: doubles(needs),
    needDrawnKg: zeros.take(needs),
    needSurplusKg: doubles(needs),
    order: Int32Array.from(plan.eventAt.keys()),
    eventAt: plan.eventAt.slice(),
    next: 0,
    lateEvent: NO_EVENT,
    lateAt: Infinity,
    isReordered: false,
    trace: null,
  };
};

/** Instants and order of the known events under this run's slips: insertion sort, as they are nearly sorted already. */
export const orderEvents = (run: Run, input: RunInput): void => {
  const { plan, order, eventAt } = run;
  const { eventKey, eventKind, eventIndex } = plan;
  for (let e = 0; e < order.length; e += 1) {
    const kind = eventKind[e] as number;
    const index = eventIndex[e] as number;
    let at = plan.eventAt[e] as number;
    if (kind === EVENT.arrival || kind === EVENT.departure) at += input.flightSlipMs[index] as number;
    else if (kind === EVENT.load) at += input.sortieSlipMs[index] as number;
    eventAt[e] = at;
    const key = eventKey[e] as number;
    let place = e;
    while (place > 0) {
      const before = order[place - 1] as number;
      const beforeAt = eventAt[before] as number;
      if (beforeAt < at || (beforeAt === at && (eventKey[before] as number) <= key)) break;
      order[place] = before;
      place -= 1;
    }
    order[place] = e;
  }
};
