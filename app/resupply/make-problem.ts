/** From a plan case and what is asked to the problem that is searched; says in words what cannot be asked. */
import { PlanningError } from "../ground/failure.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import type { Entity } from "../entity/entities.ts";
import { formatNumber } from "../format/number.ts";
import { DAY_MS } from "../ground/quantity.ts";
import { arrivalInstants, cadenceInstants } from "./arrival-instants.ts";
import type { ResupplyAsked } from "./asked.ts";
import { loadsBetween } from "./candidates.ts";
import type { Lane, Problem, Purse } from "./problem.ts";
import { hullsOf, portsOf } from "./resources.ts";

/** With more instants than this only one further flight arrives at each. */
const MANY_INSTANTS = 150;

export interface AskedClass {
  readonly row: Entity<"craftClass">;
  readonly hulls: number | null;
  readonly turnaroundDays: number;
  readonly costPerFlight: number | null;
  readonly everyDays: number | null;
}

/** The classes that may fly. Throws where there are none. */
export const classesAsked = (plan: PlanSnapshot, { classes }: ResupplyAsked): readonly AskedClass[] => {
  const tankers = plan.craftClasses.filter(({ role }) => role === "tanker");
  const found = tankers.flatMap((row): AskedClass[] => {
    const asked = classes.find(({ classId }) => classId === row.id);
    if (asked === undefined && classes.length > 0) return [];
    return [
      {
        row,
        hulls: asked?.hulls ?? null,
        turnaroundDays: asked?.turnaroundDays ?? row.turnaroundDays,
        costPerFlight: asked?.costPerFlight ?? row.costPerFlight,
        everyDays: asked?.everyDays ?? null,
      },
    ];
  });
  if (found.length === 0)
    throw new PlanningError("refused", "No tanker class can fly: choose one, or add one under Craft.", "classes");
  return found;
};

/** A class reaches a depot where a tank holds something that it brings. */
const brings = (plan: PlanSnapshot, row: Entity<"craftClass">, depotId: string): boolean =>
  row.propellants.some(
    ({ propellantId, loadKg }) =>
      loadKg > 0 && plan.tanks.some((tank) => tank.ownerId === depotId && tank.propellantId === propellantId),
  );

/** Planned flights that may be left out: not overdue, from a source; one that draws at a depot stays. */
export const isReplaceable = (plan: PlanSnapshot, flight: Entity<"flight">): boolean =>
  flight.status === "planned" &&
  flight.origin.kind === "source" &&
  flight.departAt >= plan.asOfAt &&
  flight.arriveAt <= plan.horizonAt;

/** The plan as far as it is asked about. */
const planUntil = (plan: PlanSnapshot, untilAt: number | null): PlanSnapshot => {
  if (untilAt === null) return plan;
  if (untilAt <= plan.asOfAt)
    throw new PlanningError(
      "refused",
      "The date until which sorties are held lies before the as-of instant.",
      "untilAt",
    );
  return { ...plan, sorties: plan.sorties.filter((row) => row.status !== "planned" || row.loadAt <= untilAt) };
};

const purses = (asked: ResupplyAsked, lanes: readonly Lane[], costs: readonly number[]): readonly Purse[] => [
  ...(asked.mostFlights === null
    ? []
    : [{ kind: "flights" as const, most: asked.mostFlights, takes: new Float64Array(lanes.length).fill(1) }]),
  ...(asked.budget === null ? [] : [{ kind: "budget" as const, most: asked.budget, takes: Float64Array.from(costs) }]),
];

export interface MadeProblem {
  readonly problem: Problem;
  /** What one flight of each lane costs; null: not stated for some. */
  readonly costs: readonly number[] | null;
  /** Instants at which a flight may arrive. */
  readonly arrivals: number;
}

/** Throws "refused" in words: no class reaches the depot, no instant, different units of cost, no cost stated. */
export const makeProblem = (whole: PlanSnapshot, asked: ResupplyAsked): MadeProblem => {
  const full = planUntil(whole, asked.untilAt);
  const classes = classesAsked(full, asked);
  const replaced = asked.mayReplace ? full.flights.filter((flight) => isReplaceable(full, flight)) : [];
  const left = new Set(replaced.map(({ id }) => id));
  const plan = { ...full, flights: full.flights.filter(({ id }) => !left.has(id)) };
  const wanted = new Set(plan.sorties.filter(({ status }) => status === "planned").map(({ depotId }) => depotId));
  const depots = plan.depots.filter(({ id }) => wanted.has(id));
  const lanes: Lane[] = [];
  const instantsOf: (readonly number[])[] = [];
  /** Arrivals of flights between depots. */
  const reached: number[] = [];
  for (const depot of depots) {
    const reaching = classes.filter(({ row }) => brings(plan, row, depot.id));
    if (reaching.length === 0)
      throw new PlanningError(
        "refused",
        `None of the ${formatNumber(classes.length)} ${classes.length === 1 ? "class" : "classes"} that may fly brings a propellant for which ${depot.name} has a tank.`,
        "classes",
      );
    const rows = reaching.map(({ row }) => row);
    const instants = arrivalInstants(plan, depot, rows, asked);
    for (const { row, everyDays } of reaching) {
      const tripMs = Math.round(row.tripDays * DAY_MS);
      lanes.push({
        craftClass: row,
        depotId: depot.id,
        planned: null,
        originDepotId: null,
        tripMs,
        berthMs: row.berthDays * DAY_MS,
        cost: 1,
      });
      const own = everyDays === null ? instants : cadenceInstants(plan, row, everyDays, asked);
      instantsOf.push(own);
      if (asked.betweenDepots === null) continue;
      const wayMs = Math.max(1, Math.round(asked.betweenDepots.tripDays * DAY_MS));
      const sooner =
        everyDays === null
          ? arrivalInstants(plan, depot, rows, asked, wayMs)
          : cadenceInstants(plan, row, everyDays, asked, wayMs);
      for (const { id: originDepotId } of full.depots) {
        if (originDepotId === depot.id || loadsBetween(plan, row, originDepotId, depot.id).length === 0) continue;
        const berthMs = row.berthDays * DAY_MS;
        lanes.push({
          craftClass: row,
          depotId: depot.id,
          planned: null,
          originDepotId,
          tripMs: wayMs,
          berthMs,
          cost: 1,
        });
        // The move is the departure: an instant of its own, as is the arrival, which may be sooner than any from a source.
        instantsOf.push(sooner.map((at) => at - wayMs).filter((at) => at >= plan.asOfAt));
        reached.push(...sooner);
      }
    }
  }
  const classOf = new Map(plan.craft.map((craft) => [craft.id, craft.classId]));
  for (const flight of replaced) {
    const craftClass = plan.craftClasses.find(({ id }) => id === classOf.get(flight.craftId));
    if (craftClass === undefined) continue;
    lanes.push({
      craftClass,
      depotId: flight.depotId,
      planned: flight,
      originDepotId: null,
      tripMs: flight.arriveAt - flight.departAt,
      berthMs: flight.berthDays * DAY_MS,
      cost: 1,
    });
    instantsOf.push([flight.arriveAt]);
  }
  const instants = [...new Set([...instantsOf.flat(), ...reached])].toSorted((a, b) => a - b);
  if (instants.length === 0 && depots.length > 0)
    throw new PlanningError(
      "refused",
      `There is no instant at which a flight could arrive before the plan ends: the shortest transit takes ${formatNumber(Math.min(...classes.map(({ row }) => row.tripDays)), 1)} days, ${formatNumber((plan.horizonAt - plan.asOfAt) / DAY_MS, 1)} days are left, and ${asked.blackouts.length === 0 ? "no arrival that is asked for lies between" : "every arrival between lies in a blackout"}.`,
      "arrivals",
    );
  const isOpen = new Uint8Array(instants.length * lanes.length);
  lanes.forEach((_, lane) => {
    const own = new Set(instantsOf[lane]);
    instants.forEach((at, window) => {
      if (own.has(at)) isOpen[window * lanes.length + lane] = 1;
    });
  });
  const priceOf = new Map(classes.map(({ row, costPerFlight }) => [row.id, costPerFlight ?? row.costPerFlight]));
  const ofWay = asked.betweenDepots?.costPerFlight ?? null;
  const prices = lanes.map(
    ({ craftClass, originDepotId }) =>
      (originDepotId === null ? null : ofWay) ?? priceOf.get(craftClass.id) ?? craftClass.costPerFlight,
  );
  const isPriced = prices.every((price) => price !== null);
  if (asked.least === "cost" || asked.budget !== null) {
    const bare = lanes.find((_, lane) => prices[lane] === null);
    if (bare !== undefined)
      throw new PlanningError("refused", `What a flight of ${bare.craftClass.name} costs is not stated.`, "classes");
    const units = new Set(lanes.map(({ craftClass }) => craftClass.costUnit));
    if (units.size > 1)
      throw new PlanningError(
        "refused",
        `Costs are in different units (${[...units].join(", ")}) and cannot be added.`,
      );
  }
  const costs = isPriced ? prices.map((price) => price ?? 0) : null;
  const priced =
    asked.least === "cost" && costs !== null ? lanes.map((lane, n) => ({ ...lane, cost: costs[n] ?? 0 })) : lanes;
  const resources = [
    ...depots.map(({ id }) => portsOf(plan, priced, id)),
    ...classes.flatMap(({ row, hulls, turnaroundDays }) =>
      hulls === null ? [] : [hullsOf(plan, priced, row.id, hulls, turnaroundDays * DAY_MS)],
    ),
  ];
  return {
    costs,
    arrivals: new Set(instantsOf.filter((_, lane) => lanes[lane]?.originDepotId === null).flat()).size,
    problem: {
      plan,
      lanes: priced,
      instants,
      isOpen,
      goal: asked.goal,
      mostAtOnce: instants.length > MANY_INSTANTS ? 1 : 2,
      resources,
      purses: purses(asked, priced, costs ?? []),
      lost: asked.lost,
    },
  };
};
