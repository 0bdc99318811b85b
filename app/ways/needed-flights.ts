/** How many tanker flights a campaign needs so that the forecast finds every sortie supplied. */
import { compile } from "../forecast/compile.ts";
import { forecast } from "../forecast/forecast.ts";
import { isAhead } from "../forecast/compile-flights.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import { createEngine } from "../forecast/propagate.ts";
import { needAboardKg, needMarginKg, needWantedKg } from "../forecast/read-run.ts";
import type { Run } from "../forecast/run-state.ts";
import type { Entity } from "../entity/entities.ts";
import { DAY_MS } from "../ground/quantity.ts";
import { handoverLeadMs, usualFlight, withHull } from "./added-flight.ts";
import { latestFreeArrival } from "./free-berth.ts";
import { spareFlights } from "./spare-flights.ts";
import { firstUnsupplied, lackingNeeds } from "./standing.ts";

/** Why no number of added flights supplies every sortie: the first that stays unsupplied, and what is in the way. */
export interface Unmet {
  readonly sortieId: string;
  readonly why:
    | { readonly kind: "lander away" }
    /** The class does not bring it, or loses all of it on the way. */
    | { readonly kind: "not brought"; readonly propellantId: string }
    /** Full tanks are not enough: what can be drawn from them, and what is required with the reserve. kg */
    | {
        readonly kind: "maximum fill";
        readonly propellantId: string;
        readonly fullKg: number;
        readonly requiredKg: number;
      }
    /** A flight that leaves at the as-of instant cannot hand over before the loading. */
    | { readonly kind: "too late" }
    /** No port is free at a time when the tanks have room. */
    | { readonly kind: "no port" }
    /** More flights were tried than anyone would fly. */
    | { readonly kind: "too many"; readonly tried: number };
}

export interface NeededFlights {
  /** Planned flights that can be left out together; none where flights are added. */
  readonly sparedIds: readonly string[];
  /** More cannot be left out. */
  readonly isMostSpared: boolean;
  /** Flights to add beside all that are planned. */
  readonly added: readonly Entity<"flight">[];
  /** Null: with these every sortie is supplied, as the forecast confirms. */
  readonly unmet: Unmet | null;
  /** Flights from the as-of instant on, on their way, firm, planned and added, less those left out. */
  readonly flights: number;
  /** Taken by the tanks of the depots, and lost from tanks of depots and docked landers, to the horizon; all propellants, kg. */
  readonly deliveredKg: number;
  readonly boiledOffKg: number;
}

const MAX_ADDED = 200;
/** A margin that grew by less than this did not grow, kg. */
const GROWTH_KG = 1e-6;

/** What full tanks could give a need, and what it takes with the reserve, kg. */
const fullAndRequired = (run: Run, need: number): { fullKg: number; requiredKg: number } => {
  const { plan } = run;
  const pool = plan.needPool[need] ?? -1;
  let fullKg = needAboardKg(run, need);
  plan.tankPool.forEach((of, tank) => {
    if (of === pool) fullKg += Math.max(0, (plan.tankMaximumKg[tank] ?? 0) - (plan.tankHeelKg[tank] ?? 0));
  });
  const reserveKg = plan.poolReserveKg[pool] ?? 0;
  return { fullKg, requiredKg: needAboardKg(run, need) + needWantedKg(run, need) + reserveKg };
};

/** Why the last flight did not help: nothing of it came into the tanks, because they were full or it brought nothing. */
const whyNoHelp = (run: Run, need: number, flightId: string): Unmet["why"] => {
  const { plan } = run;
  const propellantId = plan.needPropellantIds[need] ?? "";
  const flight = plan.flightIds.indexOf(flightId);
  let deliverableKg = 0;
  for (let line = plan.flightLineStart[flight] ?? 0; line < (plan.flightLineStart[flight + 1] ?? 0); line += 1)
    if (plan.linePropellantIds[line] === propellantId) deliverableKg += run.lineDeliverableKg[line] ?? 0;
  if (deliverableKg <= 0) return { kind: "not brought", propellantId };
  const { fullKg, requiredKg } = fullAndRequired(run, need);
  return fullKg < requiredKg ? { kind: "maximum fill", propellantId, fullKg, requiredKg } : { kind: "no port" };
};

interface Added {
  readonly plan: PlanSnapshot;
  readonly flights: readonly Entity<"flight">[];
  readonly unmet: Unmet | null;
}

const isMet = (plan: PlanSnapshot): boolean => firstUnsupplied(createEngine(compile(plan)).go()) < 0;

/**
 * Adds usual flights until all is supplied: always for the first sortie that is not, always as late as handover and
 * ports allow. A flight that comes as late as it may has lost the least and finds the most room, so the first sortie is
 * supplied by as few as can be, and none comes before it that a later one could be served by; hence the count is the
 * least wherever ports do not push arrivals apart. Yields after every forecast.
 */
function* addFlights(plan: PlanSnapshot, tanker: Entity<"craftClass">): Generator<void, Added> {
  const start = withHull(plan, tanker);
  const leadMs = handoverLeadMs(tanker);
  const firstAt = Math.ceil(plan.asOfAt + tanker.tripDays * DAY_MS);
  let now = start.plan;
  let flights: readonly Entity<"flight">[] = [];
  let before: { readonly sortieId: string; readonly margins: ReadonlyMap<number, number> } | null = null;
  for (;;) {
    const run = createEngine(compile(now)).go();
    yield;
    const sortie = firstUnsupplied(run);
    if (sortie < 0) return { plan: now, flights, unmet: null };
    const sortieId = run.plan.sortieIds[sortie] ?? "";
    const stop = (why: Unmet["why"]): Added => ({ plan: now, flights, unmet: { sortieId, why } });
    if (run.sortieLanderAway[sortie] === 1) return stop({ kind: "lander away" });
    const margins = new Map(lackingNeeds(run, sortie).map((need) => [need, needMarginKg(run, need)]));
    const last = flights.at(-1);
    for (const [need, margin] of margins) {
      const earlier = before?.sortieId === sortieId ? before.margins.get(need) : undefined;
      if (earlier !== undefined && last !== undefined && margin <= earlier + GROWTH_KG)
        return stop(whyNoHelp(run, need, last.id));
    }
    if (flights.length >= MAX_ADDED) return stop({ kind: "too many", tried: flights.length });
    const depotId = plan.sorties.find(({ id }) => id === sortieId)?.depotId ?? "";
    const limitAt = (run.plan.sortieLoadAt[sortie] ?? 0) - leadMs;
    const arriveAt = latestFreeArrival(now, depotId, tanker.berthDays, firstAt, limitAt);
    if (arriveAt === null) return stop({ kind: limitAt < firstAt ? "too late" : "no port" });
    const flight = usualFlight(now, tanker, start.hullId, depotId, arriveAt);
    flights = [...flights, flight];
    now = { ...now, flights: [...now.flights, flight] };
    before = { sortieId, margins };
  }
}

/** Leaves out added flights that ports pushed so early that later ones made them needless. */
function* dropNeedless(found: Added): Generator<void, Added> {
  let { plan, flights } = found;
  for (const flight of found.flights) {
    const without = { ...plan, flights: plan.flights.filter(({ id }) => id !== flight.id) };
    const isNeedless = isMet(without);
    yield;
    if (!isNeedless) continue;
    plan = without;
    flights = flights.filter(({ id }) => id !== flight.id);
  }
  return { ...found, plan, flights };
}

/** Counts flights and kilograms of the plan that came out, by the whole forecast. */
const totals = (plan: PlanSnapshot) => {
  const seen = forecast(plan);
  const taken = seen.flights.flatMap(({ lines }) => lines.flatMap((line) => line.taken.map(({ massKg }) => massKg)));
  return {
    flights: plan.flights.filter(isAhead).length,
    deliveredKg: taken.reduce((sum, kg) => sum + kg, 0),
    boiledOffKg: seen.losses.reduce((sum, { lostKg }) => sum + lostKg, 0),
  };
};

/**
 * Where every sortie is supplied: the most planned flights that can be left out. Where one is not: the fewest usual
 * flights of `tanker` to add, the others kept. Every answer is one that the forecast has confirmed; hulls and the time
 * between two flights of one are not looked at. Pure and deterministic; yields after every forecast, so that it can be
 * shown, paused or stopped.
 */
export function* neededFlights(plan: PlanSnapshot, tanker: Entity<"craftClass">): Generator<void, NeededFlights> {
  const engine = createEngine(compile(plan));
  if (firstUnsupplied(engine.go()) < 0) {
    const { flightIds, isMost } = yield* spareFlights(plan, engine);
    const left = new Set(flightIds);
    const kept = { ...plan, flights: plan.flights.filter(({ id }) => !left.has(id)) };
    return { sparedIds: flightIds, isMostSpared: isMost, added: [], unmet: null, ...totals(kept) };
  }
  const tried = yield* addFlights(plan, tanker);
  const found = tried.unmet === null ? yield* dropNeedless(tried) : tried;
  return {
    sparedIds: [],
    isMostSpared: true,
    added: found.flights,
    unmet: found.unmet,
    ...totals(found.plan),
  };
}
