/**
 * What is counted over replications: whole numbers only (masses as whole grams), so that parts added in any order give
 * the same bytes. Typed arrays throughout: a tally travels between threads without a copy.
 */
import { DAY_MS } from "../ground/quantity.ts";
import type { RiskModel } from "./risk-model.ts";

/** Bins of a level between empty and maximum fill; one more for exactly full (or above). */
export const LEVEL_BINS = 1024;

/** Edges of slip classes for what bad replications have in common, days; class 0 is no slip (never counted), the last is "lost". */
export const SLIP_EDGES: readonly number[] = [0, 5, 10, 20, 40, 80, 160];
export const SLIP_CLASSES = SLIP_EDGES.length + 2;
export const LOST_CLASS = SLIP_CLASSES - 1;

/** Bins of what was missing at a first try, up to what a sortie needs; bin 0 is nothing, the last is more. */
export const MISSING_BINS = 1024;

const HOUR_MS = DAY_MS / 24;

/** Hours are counted up to here; more stand in the last bin. */
const hoursBetween = (fromAt: number, untilAt: number): number =>
  Math.max(0, Math.ceil((untilAt - fromAt) / HOUR_MS)) + 2;

/** Sizes that all tallies of one job share. */
export interface TallyShape {
  readonly sorties: number;
  readonly needs: number;
  readonly pools: number;
  readonly flights: number;
  readonly coolers: number;
  readonly tanks: number;
  readonly instants: number;
  /** First bin of each sortie's delays: 0 is no delay, n is up to n hours. */
  readonly delayStart: Int32Array;
  /** Hours from the as-of instant in which the campaign can end. */
  readonly endHours: number;
}

export const tallyShape = (model: RiskModel): TallyShape => {
  const { plan, sorties } = model;
  const longestTrip = Math.max(
    0,
    ...plan.sortieIds.map((_, s) => (plan.sortieReturnAt[s] as number) - (plan.sortieLoadAt[s] as number)),
  );
  const delayStart = [0];
  for (const { writtenAt } of sorties)
    delayStart.push((delayStart.at(-1) ?? 0) + hoursBetween(writtenAt, plan.horizonAt));
  return {
    sorties: sorties.length,
    needs: plan.needPropellantIds.length,
    pools: plan.poolKeys.length,
    flights: model.flights.length,
    coolers: model.coolers.length,
    tanks: model.tanks.length,
    instants: model.bandsAt.length,
    delayStart: new Int32Array(delayStart),
    endHours: hoursBetween(plan.asOfAt, plan.horizonAt + longestTrip),
  };
};

export interface Tally {
  readonly shape: TallyShape;
  /** [replications, all fly when planned, all fly, replications with bands, flights used, of squares, flights lost, of squares]. */
  readonly counts: Float64Array;
  /** By sortie. */
  readonly firstTry: Float64Array;
  readonly flown: Float64Array;
  readonly landerAway: Float64Array;
  readonly pastHorizon: Float64Array;
  /** By need: short at the first try; what was missing then, in bins. */
  readonly needShort: Float64Array;
  readonly missing: Uint32Array;
  /** flownCounts[n]: n sorties flew. */
  readonly flownCounts: Float64Array;
  readonly delays: Uint32Array;
  readonly ends: Uint32Array;
  /** By pool, whole grams and whole kg²: boil-off, not taken, vented. */
  readonly grams: BigInt64Array;
  readonly squares: BigInt64Array;
  /** levels[(pool × instants + instant) × bins + bin]. */
  readonly levels: Uint32Array;
  /**
   * Circumstances of all and of bad replications (of the banded ones): slips by class, coolers, boil-off above its P90. Of
   * the bad ones only slips of flights planned to arrive before the sortie loads.
   */
  readonly allSlips: Uint32Array;
  readonly badSlips: Uint32Array;
  readonly allOthers: Uint32Array;
  readonly badOthers: Uint32Array;
  readonly badCount: Float64Array;
}

export const COUNT = {
  replications: 0,
  allFirstTry: 1,
  allFly: 2,
  banded: 3,
  used: 4,
  usedSquared: 5,
  lost: 6,
  lostSquared: 7,
} as const;

/** Kinds of mass that are summed, by place in a pool's row. */
export const MASS = { boilOff: 0, notTaken: 1, vented: 2 } as const;
export const MASSES = 3;

/** An empty tally; one that is not banded has no room for levels and circumstances. */
export const createTally = (shape: TallyShape, isBanded = true): Tally => {
  const { sorties, needs, pools, coolers, tanks } = shape;
  const instants = isBanded ? shape.instants : 0;
  const flights = isBanded ? shape.flights : 0;
  const others = isBanded ? coolers + tanks : 0;
  return {
    shape,
    counts: new Float64Array(8),
    firstTry: new Float64Array(sorties),
    flown: new Float64Array(sorties),
    landerAway: new Float64Array(sorties),
    pastHorizon: new Float64Array(sorties),
    needShort: new Float64Array(needs),
    missing: new Uint32Array(needs * (MISSING_BINS + 2)),
    flownCounts: new Float64Array(sorties + 1),
    delays: new Uint32Array(shape.delayStart.at(-1) ?? 0),
    ends: new Uint32Array(shape.endHours),
    grams: new BigInt64Array(pools * MASSES),
    squares: new BigInt64Array(pools * MASSES),
    levels: new Uint32Array(pools * instants * (LEVEL_BINS + 1)),
    allSlips: new Uint32Array(flights * SLIP_CLASSES),
    badSlips: new Uint32Array(sorties * flights * SLIP_CLASSES),
    allOthers: new Uint32Array(others),
    badOthers: new Uint32Array(sorties * others),
    badCount: new Float64Array(sorties),
  };
};

// One function a kind of array: one for all would be slow for each.
const addNumbers = (to: Float64Array, from: Float64Array): void => {
  for (let i = 0; i < from.length; i += 1) to[i] = (to[i] as number) + (from[i] as number);
};

const addCounts = (to: Uint32Array, from: Uint32Array): void => {
  // Most are 0: what is not read need not be written.
  for (let i = 0; i < from.length; i += 1) if (from[i] !== 0) to[i] = (to[i] as number) + (from[i] as number);
};

const addWhole = (to: BigInt64Array, from: BigInt64Array): void => {
  for (let i = 0; i < to.length; i += 1) to[i] = (to[i] as bigint) + (from[i] as bigint);
};

/** Adds `part` to `to`; what the part has no room for it has not counted. In whatever order parts are added, the sum is the same to the byte. */
export const addTally = (to: Tally, part: Tally): void => {
  for (const [name, column] of Object.entries(part)) {
    if (column === part.shape) continue;
    const sum = to[name as keyof Tally];
    if (column instanceof BigInt64Array) addWhole(sum as BigInt64Array, column);
    else if (column instanceof Uint32Array) addCounts(sum as Uint32Array, column);
    else addNumbers(sum as Float64Array, column as Float64Array);
  }
};
