/** Every flight that a search may choose, put into the plan and compiled once; choosing is a switch. */
import { PlanningError } from "../ground/failure.ts";
import { compile } from "../forecast/compile.ts";
import type { CompiledPlan } from "../forecast/compiled-plan.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import type { Entity } from "../entity/entities.ts";
import { freshFlight } from "../entity/flight.ts";
import { type Lane, type Problem, keptCrowd } from "./problem.ts";

interface Candidate {
  readonly window: number;
  readonly lane: number;
  readonly copy: number;
  readonly flight: Entity<"flight">;
}

export interface Candidates {
  readonly problem: Problem;
  /** Instants, which begin windows, and lanes. */
  readonly windows: number;
  readonly lanes: number;
  /** Most flights of a lane at an instant, beside the kept ones and none of another lane. [window · lanes + lane] */
  readonly free: Int32Array;
  /** Window in which a flight arrives; −1: in none. From another depot it is a later one. [window · lanes + lane] */
  readonly arrivesIn: Int32Array;
  /** Compiled flight of a copy; −1: there is none. [(window · lanes + lane) · mostAtOnce + copy] */
  readonly flightOf: Int32Array;
  readonly isCandidate: Uint8Array;
  readonly compiled: CompiledPlan;
  readonly list: readonly Candidate[];
  /** The craft of the plan, with a hull for each class that may fly. */
  readonly craft: PlanSnapshot["craft"];
}

const HULL = "resupply-hull-";

const hullOf = (craftClass: Entity<"craftClass">): Entity<"craft"> => ({
  id: `${HULL}${craftClass.id}`,
  classId: craftClass.id,
  name: craftClass.name,
  note: "",
  engineChanges: [],
});

/** What a class can carry from one depot to another: what both have a tank for. */
export const loadsBetween = (
  plan: PlanSnapshot,
  craftClass: Entity<"craftClass">,
  fromId: string,
  toId: string,
): Entity<"flight">["loads"] => {
  const hasTank = (depotId: string, propellantId: string): boolean =>
    plan.tanks.some((tank) => tank.ownerId === depotId && tank.propellantId === propellantId);
  return craftClass.propellants.flatMap(({ propellantId, loadKg }) =>
    loadKg > 0 && hasTank(fromId, propellantId) && hasTank(toId, propellantId)
      ? [{ propellantId, loadedKg: loadKg }]
      : [],
  );
};

/** Flights of a class come from where its planned ones come from, else from the first source. */
const sourceOf = (plan: PlanSnapshot, classId: string): string => {
  const hulls = new Set(plan.craft.filter((row) => row.classId === classId).map(({ id }) => id));
  for (const { craftId, origin } of plan.flights)
    if (hulls.has(craftId) && origin.kind === "source") return origin.sourceId;
  return plan.sources[0]?.id ?? "ground";
};

const flightAt = (problem: Problem, lane: Lane, sourceId: string, id: string, instant: number): Entity<"flight"> => {
  const { craftClass, planned, originDepotId, depotId } = lane;
  if (planned !== null) return planned;
  const departAt = originDepotId === null ? instant - lane.tripMs : instant;
  return {
    id,
    planCaseId: problem.plan.planCase.id,
    key: id,
    name: craftClass.name,
    craftId: `${HULL}${craftClass.id}`,
    origin: originDepotId === null ? { kind: "source", sourceId } : { kind: "depot", depotId: originDepotId },
    depotId,
    departAt,
    arriveAt: departAt + lane.tripMs,
    berthDays: craftClass.berthDays,
    loads:
      originDepotId === null
        ? craftClass.propellants.flatMap(({ propellantId, loadKg }) =>
            loadKg > 0 ? [{ propellantId, loadedKg: loadKg }] : [],
          )
        : [...loadsBetween(problem.plan, craftClass, originDepotId, depotId)],
    ...freshFlight,
  };
};

/** Window in which a flight of a lane arrives, taken at an instant; −1: at no instant, or too late. */
const arrivalOf = ({ lanes, instants, plan }: Problem, window: number, lane: number): number => {
  const row = lanes[lane];
  if (row === undefined || row.originDepotId === null) return window;
  const at = (instants[window] ?? 0) + row.tripMs;
  return at > plan.horizonAt ? -1 : instants.indexOf(at, window + 1);
};

/** Most flights of a lane that the kept ones leave room for. */
const roomFor = (problem: Problem, window: number, lane: number): number => {
  const { lanes, instants, isOpen, resources, plan, mostAtOnce } = problem;
  const at = instants[window] ?? 0;
  const row = lanes[lane];
  if (row === undefined || isOpen[window * lanes.length + lane] !== 1) return 0;
  const isFromDepot = row.originDepotId !== null;
  if (isFromDepot && arrivalOf(problem, window, lane) < 0) return 0;
  if (row.planned === null && at - (isFromDepot ? 0 : row.tripMs) < plan.asOfAt) return 0;
  if (at > plan.horizonAt) return 0;
  let room = row.planned === null && !isFromDepot ? mostAtOnce : 1;
  for (const resource of resources)
    if (resource.arriving.includes(lane)) {
      const from = at + row.tripMs;
      room = Math.min(room, resource.capacity - keptCrowd(resource, from, from + (resource.holdMs[lane] ?? 0)));
    } else if (resource.lanes.includes(lane)) {
      const from = at - (resource.leadMs[lane] ?? 0);
      room = Math.min(room, resource.capacity - keptCrowd(resource, from, at + (resource.holdMs[lane] ?? 0)));
    }
  return Math.max(0, room);
};

/** Compiles the plan with all candidates. A class that the plan lacks is refused: its flights would lose nothing. */
export const makeCandidates = (problem: Problem): Candidates => {
  const { plan, lanes, instants, mostAtOnce } = problem;
  for (const { craftClass } of lanes)
    if (!plan.craftClasses.some(({ id }) => id === craftClass.id))
      throw new PlanningError("defect", `The plan has no class ${craftClass.name}.`);
  const windows = instants.length;
  const free = new Int32Array(windows * lanes.length);
  const arrivesIn = new Int32Array(windows * lanes.length);
  const sources = lanes.map(({ craftClass }) => sourceOf(plan, craftClass.id));
  const list: Candidate[] = [];
  for (let window = 0; window < windows; window += 1)
    lanes.forEach((lane, index) => {
      const room = roomFor(problem, window, index);
      free[window * lanes.length + index] = room;
      arrivesIn[window * lanes.length + index] = room > 0 ? arrivalOf(problem, window, index) : -1;
      for (let copy = 0; copy < room; copy += 1) {
        const id = `resupply-${String(window).padStart(5, "0")}-${index}-${copy}`;
        const flight = flightAt(problem, lane, sources[index] ?? "", id, instants[window] ?? 0);
        list.push({ window, lane: index, copy, flight });
      }
    });
  const classes = new Map(lanes.map(({ craftClass }) => [craftClass.id, craftClass]));
  const craft = [...plan.craft, ...[...classes.values()].map(hullOf)];
  const compiled = compile({ ...plan, craft, flights: [...plan.flights, ...list.map(({ flight }) => flight)] });
  const places = new Map(compiled.flightIds.map((id, index) => [id, index]));
  const flightOf = new Int32Array(windows * lanes.length * mostAtOnce).fill(-1);
  const isCandidate = new Uint8Array(compiled.flightIds.length);
  for (const { window, lane, copy, flight } of list) {
    const index = places.get(flight.id) ?? -1;
    flightOf[(window * lanes.length + lane) * mostAtOnce + copy] = index;
    if (index >= 0) isCandidate[index] = 1;
  }
  return { problem, windows, lanes: lanes.length, free, arrivesIn, flightOf, isCandidate, compiled, list, craft };
};

/** Flights chosen: how many of each lane at each instant. [window · lanes + lane] */
export type Choice = Int32Array;

/** The flights of a choice. */
export const chosenFlights = (candidates: Candidates, choice: Choice): readonly Entity<"flight">[] =>
  candidates.list
    .filter(({ window, lane, copy }) => copy < (choice[window * candidates.lanes + lane] ?? 0))
    .map(({ flight }) => flight);
