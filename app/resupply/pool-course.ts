/**
 * What happens to one pool as far as it is known beforehand, on the optimistic side: the least loss of any of its tanks,
 * draws, and kept flights that arrive. Every figure errs towards more propellant, so that a bound stays a bound.
 */
import { EVENT } from "../forecast/compiled-plan.ts";
import { levelAfter } from "../storage/level.ts";
import { NOTHING_KG } from "../forecast/pool.ts";
import { DAY_MS } from "../ground/quantity.ts";
import type { Candidates } from "./candidates.ts";

/** Loss of what is not empty at least, from an instant on. */
interface Rate {
  readonly at: number;
  readonly k: number;
  readonly c: number;
}

/** A draw (with the level it asks for just before, kg above nothing) or a kept delivery. */
export interface Happening {
  readonly at: number;
  readonly kind: "rate" | "draw" | "in";
  readonly massKg: number;
  readonly neededKg: number;
  readonly sortie: number;
  readonly k: number;
  readonly c: number;
}

/** A metered handover, foreseen or chosen: what it can bring in all, and until when. */
interface Handover {
  readonly fromAt: number;
  readonly untilAt: number;
  readonly massKg: number;
  readonly isCandidate: boolean;
  readonly isFromDepot: boolean;
  readonly flight: number;
}

export interface PoolCourse {
  readonly pool: number;
  /** In order; the first is a rate. */
  readonly happenings: readonly Happening[];
  readonly handovers: readonly Handover[];
  rateAt(at: number): { readonly k: number; readonly c: number };
  /** ∫ k dt. */
  decayOver(fromAt: number, untilAt: number): number;
  /** What the tanks can hold at an instant: one that began above its maximum holds more until it has boiled down to it. */
  mostHeldAt(at: number): number;
  /** Flights that draw here for another depot, kept or foreseen: from then on a full tank may take more. */
  readonly leavesAt: readonly number[];
  /** The level at an instant that is `massKg` at a later one, with no draw between. */
  levelBefore(massKg: number, fromAt: number, untilAt: number): number;
  /** Most that a line can bring, as if it came at once on arrival and did not boil off until its time at the port ends. */
  mostOf(line: number): number;
  /** When a line's handover ends at the latest. */
  endOf(line: number): number;
}

/** The level that becomes `massKg` after `days`; nothing needs nothing. kg */
export const levelBefore = (massKg: number, k: number, c: number, days: number): number => {
  if (massKg <= 0) return 0;
  if (k === 0) return massKg + c * days;
  return massKg * Math.exp(k * days) + (c * Math.expm1(k * days)) / k;
};

const least = (values: ReadonlyMap<number, number>): number => (values.size === 0 ? 0 : Math.min(...values.values()));

const blank = { massKg: 0, neededKg: 0, sortie: -1, k: 0, c: 0 };

/** `wantedKg`: what each need draws where nothing lacks. */
export const poolCourse = (candidates: Candidates, wantedKg: Float64Array, pool: number): PoolCourse => {
  const { compiled: plan, isCandidate, problem } = candidates;
  const tanks = [...plan.poolTanks.subarray(plan.poolStart[pool], plan.poolStart[pool + 1])];
  const [sole] = tanks;
  const heelKg = tanks.length === 1 && sole !== undefined ? (plan.tankHeelKg[sole] ?? 0) : 0;
  const reserveKg = problem.goal === "supplied" ? (plan.poolReserveKg[pool] ?? 0) : 0;
  const k = new Map(tanks.map((tank) => [tank, plan.tankK[tank] ?? 0]));
  const c = new Map(tanks.map((tank) => [tank, plan.tankC[tank] ?? 0]));
  const endOf = (line: number): number => {
    const flight = plan.lineFlight[line] ?? 0;
    const berthMs = (plan.lineRateKgPerDay[line] ?? 0) > 0 ? (plan.flightBerthMs[flight] ?? 0) : 0;
    return (plan.flightArriveAt[flight] ?? 0) + berthMs;
  };
  const linesHere = [...plan.lineFlight.keys()].filter((line) => plan.linePool[line] === pool);

  const happenings: Happening[] = [{ ...blank, at: plan.asOfAt, kind: "rate", k: least(k), c: least(c) }];
  const arrivals: { at: number; line: number; place: number }[] = [];
  plan.eventAt.forEach((at, event) => {
    const kind = plan.eventKind[event];
    const index = plan.eventIndex[event] ?? 0;
    const tank = plan.rateTank[index] ?? -1;
    if (kind === EVENT.rate && k.has(tank)) {
      k.set(tank, plan.rateK[index] ?? 0);
      c.set(tank, plan.rateC[index] ?? 0);
      happenings.push({ ...blank, at, kind: "rate", k: least(k), c: least(c) });
    } else if (kind === EVENT.load) {
      for (let need = plan.sortieLineStart[index] ?? 0; need < (plan.sortieLineStart[index + 1] ?? 0); need += 1) {
        const massKg = wantedKg[need] ?? 0;
        if (plan.needPool[need] !== pool || massKg <= 0) continue;
        const neededKg = massKg + reserveKg + heelKg - NOTHING_KG;
        happenings.push({ ...blank, at, kind: "draw", massKg, neededKg, sortie: index });
      }
    } else if (kind === EVENT.arrival && isCandidate[index] === 0)
      for (const line of linesHere)
        if (plan.lineFlight[line] === index) {
          arrivals.push({ at, line, place: happenings.length });
          happenings.push({ ...blank, at, kind: "in" });
        }
  });

  const rates: readonly Rate[] = happenings.filter(({ kind }) => kind === "rate");
  const decayOver = (fromAt: number, untilAt: number): number =>
    rates.reduce((sum, rate, n) => {
      const from = Math.max(fromAt, rate.at);
      const until = Math.min(untilAt, rates[n + 1]?.at ?? Infinity);
      return until > from ? sum + (rate.k * (until - from)) / DAY_MS : sum;
    }, 0);
  const mostOf = (line: number): number => {
    const arrivedKg = levelAfter(
      plan.lineLoadedKg[line] ?? 0,
      plan.lineTransitK[line] ?? 0,
      plan.lineTransitC[line] ?? 0,
      plan.lineTransitDays[line] ?? 0,
    );
    const offeredKg = Math.max(0, arrivedKg - (plan.lineResidualKg[line] ?? 0));
    const keptKg = Math.max(0, offeredKg - (plan.lineChillKg[line] ?? 0)) * (plan.lineKeep[line] ?? 0);
    const arriveAt = plan.flightArriveAt[plan.lineFlight[line] ?? 0] ?? 0;
    return keptKg * Math.exp(decayOver(arriveAt, endOf(line)));
  };
  for (const { at, line, place } of arrivals) happenings[place] = { ...blank, at, kind: "in", massKg: mostOf(line) };

  const handovers = linesHere
    .filter((line) => (plan.lineRateKgPerDay[line] ?? 0) > 0)
    .map((line): Handover => {
      const flight = plan.lineFlight[line] ?? 0;
      const fromAt = plan.flightArriveAt[flight] ?? 0;
      return {
        fromAt,
        untilAt: endOf(line),
        massKg: mostOf(line),
        isCandidate: isCandidate[flight] === 1,
        isFromDepot: (plan.lineOriginPool[line] ?? -1) >= 0,
        flight,
      };
    });

  const maximumKg = tanks.reduce((sum, tank) => sum + (plan.tankMaximumKg[tank] ?? 0), 0);
  const overfull = tanks.filter((tank) => (plan.tankOpeningKg[tank] ?? 0) > (plan.tankMaximumKg[tank] ?? 0));
  /** The opening of one tank carried on by its own rates. */
  const openingAt = (tank: number, at: number): number => {
    let level = plan.tankOpeningKg[tank] ?? 0;
    let from = plan.asOfAt;
    let tankK = plan.tankK[tank] ?? 0;
    let tankC = plan.tankC[tank] ?? 0;
    for (let event = 0; event < plan.eventAt.length && (plan.eventAt[event] ?? 0) < at; event += 1) {
      const index = plan.eventIndex[event] ?? 0;
      if (plan.eventKind[event] !== EVENT.rate || plan.rateTank[index] !== tank) continue;
      const changeAt = plan.eventAt[event] ?? 0;
      level = levelAfter(level, tankK, tankC, (changeAt - from) / DAY_MS);
      from = changeAt;
      tankK = plan.rateK[index] ?? 0;
      tankC = plan.rateC[index] ?? 0;
    }
    return levelAfter(level, tankK, tankC, (at - from) / DAY_MS);
  };
  const rateAt = (at: number): Rate => rates.findLast((rate) => rate.at <= at) ?? { at, k: 0, c: 0 };

  const leavesAt = [...plan.lineFlight.keys()]
    .filter((line) => plan.lineOriginPool[line] === pool)
    .map((line) => plan.flightDepartAt[plan.lineFlight[line] ?? 0] ?? 0);

  return {
    pool,
    leavesAt,
    happenings,
    handovers,
    rateAt,
    decayOver,
    mostOf,
    endOf,
    mostHeldAt: (at) =>
      overfull.reduce(
        (sum, tank) => sum + Math.max(0, openingAt(tank, at) - (plan.tankMaximumKg[tank] ?? 0)),
        maximumKg,
      ),
    levelBefore: (massKg, fromAt, untilAt) => {
      const edges = [fromAt, ...rates.map(({ at }) => at).filter((at) => at > fromAt && at < untilAt), untilAt];
      let level = massKg;
      for (let n = edges.length - 1; n > 0; n -= 1) {
        const from = edges[n - 1] ?? 0;
        const rate = rateAt(from);
        level = levelBefore(level, rate.k, rate.c, Math.max(0, (edges[n] ?? 0) - from) / DAY_MS);
      }
      return level;
    },
  };
};
