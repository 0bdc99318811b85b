/** Counts what one replication gave. */
import { leftCount, lostKg, needAvailableKg, needRequiredKg, needStatus } from "../forecast/read-run.ts";
import { OUTCOME, STATUS } from "../forecast/run.ts";
import type { Run } from "../forecast/run-state.ts";
import { DAY_MS } from "../ground/quantity.ts";
import type { Replicator } from "./replication.ts";
import { BLOCK } from "./stream.ts";
import {
  COUNT,
  LEVEL_BINS,
  LOST_CLASS,
  MASS,
  MASSES,
  MISSING_BINS,
  SLIP_CLASSES,
  SLIP_EDGES,
  type Tally,
} from "./tally.ts";

const HOUR_MS = DAY_MS / 24;

/** A boil-off factor above this many σ is high: the upper tenth. */
const HIGH_SIGMA = 1.281_551_565_544_6;

/** Replications whose bins are kept until they are counted: the more, the seldomer each curve's counts are fetched. */
const KEPT = 4 * BLOCK;

/** What counting needs to know of a plan beside the run: worked out once. */
export interface Counting {
  /** The most that a sortie may need of a propellant, kg: the span of what can be missing. */
  readonly missingSpanKg: Float64Array;
  readonly poolMaximumKg: Float64Array;
  /** 1: what a flight line cannot deliver is vented. */
  readonly lineVents: Uint8Array;
  /** Boil-off factor above which a tank's loss is high; Infinity: it is not drawn. */
  readonly highFactor: Float64Array;
  /** Of this replication, by pool and kind of mass; summed before they go into whole numbers. */
  readonly grams: Float64Array;
  /** Sums of one block. */
  readonly blockGrams: Float64Array;
  readonly blockSquares: Float64Array;
  /** Of one block, by need: tries at which nothing was missing. */
  readonly blockEnough: Float64Array;
  /** Of a few blocks: bins of the levels, [replication × places + place]; how many replications stand there. */
  readonly keptBins: Uint16Array;
  banded: number;
  /** Flights by planned arrival, and how many of them arrive before each sortie loads: the others are nothing to it. */
  readonly byArrival: Int32Array;
  readonly flightsBefore: Int32Array;
  /** Of this replication: late and lost flights by planned arrival, each as its place there and among all slip classes. */
  readonly latePlace: Int32Array;
  readonly lateClass: Int32Array;
}

export const createCounting = ({ model }: Replicator): Counting => {
  const { plan, snapshot } = model;
  const overflow = new Map(snapshot.flights.map((row) => [row.id, row.overflow]));
  const poolMaximumKg = new Float64Array(plan.poolKeys.length);
  plan.tankPool.forEach((pool, tank) => {
    if (pool >= 0) poolMaximumKg[pool] = (poolMaximumKg[pool] as number) + (plan.tankMaximumKg[tank] as number);
  });
  const { flightArriveAt } = plan;
  const byArrival = Int32Array.from(flightArriveAt.keys()).sort(
    (a, b) => (flightArriveAt[a] as number) - (flightArriveAt[b] as number) || a - b,
  );
  return {
    missingSpanKg: Float64Array.from(
      plan.needLoadKg,
      (load, need) => ((plan.needChillKg[need] as number) + load / (plan.needKeep[need] as number)) * 1.25,
    ),
    poolMaximumKg,
    lineVents: Uint8Array.from(plan.lineFlight, (flight) =>
      overflow.get(plan.flightIds[flight] ?? "") === "vent" ? 1 : 0,
    ),
    highFactor: Float64Array.from(model.tanks, ({ boilOff }) =>
      boilOff.sigma > 0 ? Math.exp(HIGH_SIGMA * boilOff.sigma) : Infinity,
    ),
    grams: new Float64Array(plan.poolKeys.length * MASSES),
    blockGrams: new Float64Array(plan.poolKeys.length * MASSES),
    blockSquares: new Float64Array(plan.poolKeys.length * MASSES),
    blockEnough: new Float64Array(plan.needLoadKg.length),
    keptBins: new Uint16Array(model.bandsAt.length * plan.poolKeys.length * KEPT),
    banded: 0,
    byArrival,
    flightsBefore: Int32Array.from(
      plan.sortieLoadAt,
      (loadAt) => byArrival.filter((flight) => (flightArriveAt[flight] as number) <= loadAt).length,
    ),
    latePlace: new Int32Array(model.flights.length),
    lateClass: new Int32Array(model.flights.length),
  };
};

// One function a kind of array: one for both would be slow for each.
const add = (column: Float64Array, index: number, by: number): void => {
  column[index] = (column[index] as number) + by;
};

const addWhole = (column: Uint32Array, index: number, by: number): void => {
  column[index] = (column[index] as number) + by;
};

/** What a sortie lacked at its first try. */
const countShort = (run: Run, counting: Counting, tally: Tally, sortie: number): void => {
  const { plan } = run;
  const end = plan.sortieLineStart[sortie + 1] as number;
  for (let need = plan.sortieLineStart[sortie] as number; need < end; need += 1) {
    if (needStatus(run, need) !== STATUS.short) {
      add(counting.blockEnough, need, 1);
      continue;
    }
    add(tally.needShort, need, 1);
    const missing = needRequiredKg(run, need) - needAvailableKg(run, need);
    const span = counting.missingSpanKg[need] as number;
    const bin = Math.min(MISSING_BINS + 1, 1 + Math.floor((missing / span) * MISSING_BINS));
    addWhole(tally.missing, need * (MISSING_BINS + 2) + bin, 1);
  }
};

/** Counts the sorties; returns whether all flew at their first try (2), all flew (1), or not (0). */
const countSorties = ({ model, run }: Replicator, counting: Counting, tally: Tally): number => {
  const { shape } = tally;
  let flown = 0;
  let first = 0;
  let lastEndAt = 0;
  let ahead = 0;
  for (let sortie = 0; sortie < shape.sorties; sortie += 1) {
    // A sortie that is out flies already: it is no question any more.
    if (run.plan.sortieIsOut[sortie] === 1) continue;
    ahead += 1;
    const outcome = run.sortieOutcome[sortie] as number;
    if (run.sortieLanderAway[sortie] === 1) add(tally.landerAway, sortie, 1);
    else if (outcome !== OUTCOME.pending) countShort(run, counting, tally, sortie);
    if (outcome === OUTCOME.pending || outcome === OUTCOME.waiting) add(tally.pastHorizon, sortie, 1);
    if (outcome > OUTCOME.waitsAndFlies) continue;
    flown += 1;
    add(tally.flown, sortie, 1);
    if (outcome === OUTCOME.flies) {
      first += 1;
      add(tally.firstTry, sortie, 1);
    }
    const loadedAt = run.sortieLoadedAt[sortie] as number;
    const delay = loadedAt - (model.sorties[sortie] as { readonly writtenAt: number }).writtenAt;
    const from = shape.delayStart[sortie] as number;
    const room = (shape.delayStart[sortie + 1] as number) - from;
    addWhole(tally.delays, from + Math.min(room - 1, Math.max(0, Math.ceil(delay / HOUR_MS))), 1);
    const trip = (run.plan.sortieReturnAt[sortie] as number) - (run.plan.sortieLoadAt[sortie] as number);
    if (loadedAt + trip > lastEndAt) lastEndAt = loadedAt + trip;
  }
  add(tally.flownCounts, flown, 1);
  if (flown < ahead) return 0;
  addWhole(
    tally.ends,
    Math.min(shape.endHours - 1, Math.max(0, Math.ceil((lastEndAt - run.plan.asOfAt) / HOUR_MS))),
    1,
  );
  return first === ahead ? 2 : 1;
};

const countMasses = (run: Run, counting: Counting): void => {
  const { plan } = run;
  const { grams } = counting;
  grams.fill(0);
  for (let tank = 0; tank < plan.tankPool.length; tank += 1) {
    const pool = plan.tankPool[tank] as number;
    if (pool >= 0) add(grams, pool * MASSES + MASS.boilOff, lostKg(run, tank));
  }
  for (let index = 0; index < leftCount(run); index += 1) {
    const line = run.leftLine[index] as number;
    const left = run.leftKg[index] as number;
    const row = (plan.linePool[line] as number) * MASSES;
    add(grams, row + MASS.notTaken, left);
    if (counting.lineVents[line] === 1) add(grams, row + MASS.vented, left);
  }
  for (let index = 0; index < grams.length; index += 1) {
    const whole = Math.round((grams[index] as number) * 1000);
    const kg = Math.round(whole / 1000);
    add(counting.blockGrams, index, whole);
    add(counting.blockSquares, index, kg * kg);
  }
};

/** Flights that departed, and those of them that were lost. */
const countFlights = ({ model, departures }: Replicator, tally: Tally): void => {
  let used = 0;
  let lost = 0;
  const { departAt } = model.departures;
  const { slipMs, isLost } = departures;
  const { horizonAt } = model.plan;
  for (let flight = 0; flight < departAt.length; flight += 1) {
    if ((departAt[flight] as number) + (slipMs[flight] as number) > horizonAt) continue;
    used += 1;
    lost += isLost[flight] as number;
  }
  add(tally.counts, COUNT.used, used);
  add(tally.counts, COUNT.usedSquared, used * used);
  add(tally.counts, COUNT.lost, lost);
  add(tally.counts, COUNT.lostSquared, lost * lost);
};

/** Keeps the bins of the levels: they are counted a few blocks at a time, curve by curve, which the cache bears far better. */
const keepLevels = ({ model, bandKg }: Replicator, counting: Counting): void => {
  const instants = model.bandsAt.length;
  const { poolMaximumKg, keptBins } = counting;
  let to = counting.banded * bandKg.length;
  for (let pool = 0; pool < poolMaximumKg.length; pool += 1) {
    const maximum = poolMaximumKg[pool] as number;
    const from = pool * instants;
    if (!(maximum > 0)) {
      keptBins.fill(0, to, to + instants);
      to += instants;
      continue;
    }
    for (let index = from; index < from + instants; index += 1) {
      const share = (bandKg[index] as number) / maximum;
      // What is put into whole numbers is cut there to its whole part.
      keptBins[to] = share >= 1 ? LEVEL_BINS : share * LEVEL_BINS;
      to += 1;
    }
  }
  counting.banded += 1;
};

const countCurve = (levels: Uint32Array, from: number, { keptBins, banded }: Counting, index: number): void => {
  const places = keptBins.length / KEPT;
  for (let r = 0, at = index; r < banded; r += 1, at += places) addWhole(levels, from + (keptBins[at] as number), 1);
};

/** Carries the bins that are kept into the tally. */
export const countLevels = (counting: Counting, tally: Tally): void => {
  const { keptBins, banded } = counting;
  if (banded === 0) return;
  const places = keptBins.length / KEPT;
  for (let index = 0; index < places; index += 1) countCurve(tally.levels, index * (LEVEL_BINS + 1), counting, index);
  counting.banded = 0;
};

/** The class of a slip above 0. */
const slipClassOf = (slipMs: number): number => {
  const days = slipMs / DAY_MS;
  let index = 1;
  while (index < SLIP_EDGES.length && days > (SLIP_EDGES[index] as number)) index += 1;
  return index;
};

/** Finds the flights that are late or lost, and counts them; how many there are. One on time is nobody's reason. */
const countLate = ({ departures }: Replicator, counting: Counting, { allSlips, shape }: Tally): number => {
  const { slipMs, isLost } = departures;
  const { byArrival, latePlace, lateClass } = counting;
  let late = 0;
  for (let n = 0; n < shape.flights; n += 1) {
    const flight = byArrival[n] as number;
    // A flight whose hull was lost before does not depart: for those that wait for it, it is lost too.
    const slip = slipMs[flight] as number;
    const isGone = isLost[flight] === 1 || slip === Infinity;
    if (!isGone && slip <= 0) continue;
    const index = flight * SLIP_CLASSES + (isGone ? LOST_CLASS : slipClassOf(slip));
    addWhole(allSlips, index, 1);
    latePlace[late] = n;
    lateClass[late] = index;
    late += 1;
  }
  return late;
};

/** Counts coolers that failed and boil-off that is high into a row of circumstances. */
const countOthers = (replicator: Replicator, counting: Counting, others: Uint32Array, row: number): void => {
  const { input, coolerFailed } = replicator;
  const coolers = coolerFailed.length;
  const tanks = counting.highFactor.length;
  for (let index = 0; index < coolers; index += 1) addWhole(others, row + index, coolerFailed[index] as number);
  for (let tank = 0; tank < tanks; tank += 1)
    if ((input.rateFactor[tank] as number) > (counting.highFactor[tank] as number))
      addWhole(others, row + coolers + tank, 1);
};

/** What happened to flights, coolers and boil-off: in all replications, and in those in which a sortie did not go at its first try. */
const countCircumstances = (replicator: Replicator, counting: Counting, tally: Tally): void => {
  const { model, run } = replicator;
  const { flights, coolers, tanks, sorties } = tally.shape;
  const { badSlips } = tally;
  const { flightsBefore, latePlace, lateClass } = counting;
  const late = countLate(replicator, counting, tally);
  countOthers(replicator, counting, tally.allOthers, 0);
  for (let sortie = 0; sortie < sorties; sortie += 1) {
    if (run.sortieOutcome[sortie] === OUTCOME.flies || model.plan.sortieIsOut[sortie] === 1) continue;
    add(tally.badCount, sortie, 1);
    const row = sortie * flights * SLIP_CLASSES;
    const before = flightsBefore[sortie] as number;
    for (let n = 0; n < late && (latePlace[n] as number) < before; n += 1)
      addWhole(badSlips, row + (lateClass[n] as number), 1);
    countOthers(replicator, counting, tally.badOthers, sortie * (coolers + tanks));
  }
};

/** Counts the replication that has just run. */
export const countReplication = (replicator: Replicator, counting: Counting, tally: Tally, isBanded: boolean): void => {
  add(tally.counts, COUNT.replications, 1);
  const all = countSorties(replicator, counting, tally);
  if (all === 2) add(tally.counts, COUNT.allFirstTry, 1);
  if (all > 0) add(tally.counts, COUNT.allFly, 1);
  countMasses(replicator.run, counting);
  countFlights(replicator, tally);
  if (!isBanded) return;
  add(tally.counts, COUNT.banded, 1);
  countCircumstances(replicator, counting, tally);
  if (replicator.model.bandsAt.length > 0) keepLevels(replicator, counting);
};

/** Carries a block into the tally: its masses (whole numbers that fit a double within a block, not beyond), and levels now and then. */
export const closeBlock = (counting: Counting, tally: Tally): void => {
  if (counting.banded === KEPT) countLevels(counting, tally);
  for (let need = 0; need < counting.blockEnough.length; need += 1)
    addWhole(tally.missing, need * (MISSING_BINS + 2), counting.blockEnough[need] as number);
  counting.blockEnough.fill(0);
  for (let index = 0; index < counting.blockGrams.length; index += 1) {
    tally.grams[index] = (tally.grams[index] as bigint) + BigInt(counting.blockGrams[index] as number);
    tally.squares[index] = (tally.squares[index] as bigint) + BigInt(counting.blockSquares[index] as number);
  }
  counting.blockGrams.fill(0);
  counting.blockSquares.fill(0);
};
