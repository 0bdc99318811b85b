/**
 * Repair: after a slip or a loss the least change of what is not firm. Two kinds are looked for, planned flights moved and
 * further flights, and where several further flights are needed, fewer of them with some moved.
 */
import { PlanningError } from "../ground/failure.ts";
import { compile } from "../forecast/compile.ts";
import { forecast } from "../forecast/forecast.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import { createEngine } from "../forecast/propagate.ts";
import type { Entity } from "../entity/entities.ts";
import { DAY_MS } from "../ground/quantity.ts";
import type { Working } from "../work/working.ts";
import type { FlightChange, Unheld } from "./answer.ts";
import { arrivalInstants } from "./arrival-instants.ts";
import { type ResupplyAsked, usualAsked } from "./asked.ts";
import type { SolveLinear } from "./linear.ts";
import { classesAsked, isReplaceable, makeProblem } from "./make-problem.ts";
import { type MoveScene, moveFlights } from "./move-flights.ts";
import { planResupply } from "./plan-resupply.ts";
import { crewed, isHeld, lacking, purposes, splitChoice, sumsOf } from "./proposal.ts";
import type { RepairAnswer, RepairAsked, FoundRepair } from "./repair-answer.ts";
import { leastChanges } from "./repair-bound.ts";
import { tripsOf } from "./room-to-move.ts";
import { type Prepared, prepare, search } from "./search.ts";

const MAX_LABELS = 300_000;
const MAX_ROUNDS = 6;
/** Runs of the engine in which planned flights are tried at other dates: alone, and in place of further flights. */
const MAX_MOVING_RUNS = 6000;
const MAX_MIXING_RUNS = 2500;

/** A flight that arrives at another instant; undefined: as it is. */
const movedTo = (flight: Entity<"flight">, arriveAt: number | undefined): Entity<"flight"> =>
  arriveAt === undefined ? flight : { ...flight, departAt: flight.departAt + arriveAt - flight.arriveAt, arriveAt };

/** Later by so much; one that is under way has left when it left. */
const slipped = (flight: Entity<"flight">, days: number): Entity<"flight"> => ({
  ...flight,
  departAt: flight.status === "departed" ? flight.departAt : Math.round(flight.departAt + days * DAY_MS),
  arriveAt: Math.round(flight.arriveAt + days * DAY_MS),
});

/** The plan after the mishaps. Throws "not found", or "refused" for a flight that is over. */
const withMishaps = (plan: PlanSnapshot, { mishaps }: RepairAsked): PlanSnapshot => {
  const flights = [...plan.flights];
  for (const { flightId, ...what } of mishaps) {
    const index = flights.findIndex(({ id }) => id === flightId);
    const flight = flights[index];
    if (flight === undefined) throw new PlanningError("not found", `There is no flight ${flightId}.`, "mishaps");
    if (flight.status !== "planned" && flight.status !== "firm" && flight.status !== "departed")
      throw new PlanningError(
        "refused",
        `${flight.name} is ${flight.status}: it can neither slip nor be lost any more.`,
        "mishaps",
      );
    flights[index] = what.kind === "lost" ? { ...flight, status: "lost" } : slipped(flight, what.days);
  }
  return { ...plan, flights };
};

/** Flights that cannot leave any more, as the hull they are to fly was lost on a flight before; the plan without them. */
const withoutLostHulls = (plan: PlanSnapshot): { plan: PlanSnapshot; goneIds: readonly string[] } => {
  const lostAt = new Map<string, number>();
  for (const { status, craftId, departAt } of plan.flights)
    if (status === "lost") lostAt.set(craftId, Math.min(departAt, lostAt.get(craftId) ?? Infinity));
  const isGone = ({ status, craftId, departAt }: Entity<"flight">): boolean =>
    (status === "planned" || status === "firm") && departAt >= (lostAt.get(craftId) ?? Infinity);
  return {
    plan: {
      ...plan,
      flights: plan.flights.map((row) => (isGone(row) ? { ...row, status: "cancelled" as const } : row)),
    },
    goneIds: plan.flights.filter(isGone).map(({ id }) => id),
  };
};

/** Sorties that a plan does not hold, as far as they are asked about. */
const brokenIn = (plan: PlanSnapshot, { goal, untilAt }: RepairAsked): readonly Unheld[] => {
  const run = createEngine(compile(plan)).go();
  return run.plan.sortieIds.flatMap((sortieId, sortie): readonly Unheld[] => {
    if (isHeld(run, sortie, goal)) return [];
    if (untilAt !== null && (run.plan.sortieLoadAt[sortie] ?? 0) > untilAt) return [];
    const lack = lacking(run, sortie, goal);
    return lack === null
      ? [{ sortieId, propellantId: null, missingKg: 0, why: "lander away" }]
      : [{ sortieId, propellantId: lack.propellantId, missingKg: lack.missingKg, why: "flights" }];
  });
};

/** What all ways share. */
interface Scene {
  /** After the mishaps. */
  readonly plan: PlanSnapshot;
  readonly asked: RepairAsked;
  readonly all: ResupplyAsked;
  readonly movable: readonly Entity<"flight">[];
  /** Flights that go with a lost hull. */
  readonly goneIds: readonly string[];
  costOf(flight: Entity<"flight">): number | null;
  shouldStop(): boolean;
}

/** Further flights of a plan, and the hulls that they fly and the plan does not have. */
interface Further {
  readonly flights: readonly Entity<"flight">[];
  readonly craft: readonly Entity<"craft">[];
}

/** The way as it is told, or null where its own forecast does not hold everything. */
const repairOf = (
  scene: Scene,
  moves: ReadonlyMap<string, number>,
  further: Further,
  isProvedLeast: boolean,
): FoundRepair | null => {
  const { plan, asked } = scene;
  const before = new Map(plan.flights.map((row) => [row.id, row]));
  const flights = plan.flights.map((row) => movedTo(row, moves.get(row.id)));
  const whole: PlanSnapshot = {
    ...plan,
    craft: [...plan.craft, ...further.craft],
    flights: [...flights, ...further.flights],
  };
  if (brokenIn(whole, asked).length > 0) return null;
  const classOf = new Map(whole.craft.map(({ id, classId }) => [id, classId]));
  const isFor = purposes(
    whole,
    asked.goal,
    further.flights.map(({ id }) => id),
  );
  const moved = flights
    .filter(({ id }) => moves.has(id))
    .map((flight) => {
      const from = before.get(flight.id) ?? flight;
      const [lack] = brokenIn(
        { ...whole, flights: whole.flights.map((row) => (row.id === flight.id ? from : row)) },
        asked,
      );
      return {
        flight,
        fromDepartAt: from.departAt,
        fromArriveAt: from.arriveAt,
        isFor:
          lack?.propellantId == null
            ? null
            : { sortieId: lack.sortieId, propellantId: lack.propellantId, missingKg: lack.missingKg },
      };
    });
  const added = further.flights.map((flight): FlightChange => ({
    kind: "added",
    flight,
    classId: classOf.get(flight.craftId) ?? "",
    isFor: isFor.get(flight.id) ?? null,
  }));
  const lost = asked.mishaps.filter(({ kind }) => kind === "lost").map(({ flightId }) => flightId);
  const slips = new Set(asked.mishaps.filter(({ kind }) => kind === "slips").map(({ flightId }) => flightId));
  return {
    moved,
    added,
    changes: moved.length + added.length,
    isProvedLeast: isProvedLeast || moved.length + added.length === 1,
    sums: sumsOf(whole, asked.goal, scene.costOf),
    taken: {
      added: further.flights,
      craft: further.craft,
      leftOutIds: [...new Set([...lost, ...scene.goneIds])],
      moved: flights
        .filter(({ id }) => moves.has(id) || slips.has(id))
        .map(({ id: flightId, departAt, arriveAt }) => ({ flightId, departAt, arriveAt })),
    },
  };
};

/** What it takes to try moves of planned flights of a plan. */
const moveSceneOf = (scene: Scene, plan: PlanSnapshot, runs: { left: number }): MoveScene => {
  const { asked, all, movable } = scene;
  const seen = forecast(plan);
  const classes = classesAsked(plan, { ...all, classes: [] }).map(({ row }) => row);
  return {
    plan,
    engine: createEngine(seen.compiled),
    goal: asked.goal,
    untilAt: asked.untilAt,
    trips: tripsOf(plan, seen),
    movable,
    instants: new Map(plan.depots.map((depot) => [depot.id, arrivalInstants(plan, depot, classes, all)])),
    runs,
    shouldStop: scene.shouldStop,
  };
};

/** Further flights alone, the fewest; null: none found. */
const adding = (scene: Scene, solve: SolveLinear): (Further & { readonly isProved: boolean }) | null => {
  const { plan, all } = scene;
  const prepared: Prepared = prepare(makeProblem(plan, all).problem);
  const found = search(prepared, {
    solve,
    endValue: 0,
    mostRounds: MAX_ROUNDS,
    mostLabels: MAX_LABELS,
    shouldStop: scene.shouldStop,
  });
  if (found.choice === null) return null;
  const { added } = splitChoice(prepared.candidates, found.choice);
  const hullClass = new Map(prepared.candidates.craft.map(({ id, classId }) => [id, classId]));
  const crews = crewed(plan, added, ({ craftId }) => hullClass.get(craftId) ?? "", classesAsked(plan, all));
  return { ...crews, isProved: found.isProved };
};

/**
 * Fewer of the further flights, with planned ones moved: each left out in turn and, where one move makes up for it, for
 * good, for that changes no more than the further flights alone; only where none does, one of them for two moves.
 */
const mixing = (scene: Scene, further: Further): FoundRepair | null => {
  if (further.flights.length < 2) return null;
  let { flights } = further;
  let moved: ReadonlyMap<string, number> = new Map();
  const runs = { left: MAX_MIXING_RUNS };
  const planWith = (): PlanSnapshot => ({
    ...scene.plan,
    craft: [...scene.plan.craft, ...further.craft],
    flights: [...scene.plan.flights.map((row) => movedTo(row, moved.get(row.id))), ...flights],
  });
  /** The nearest moves that make up for one of the further flights. */
  const madeUpFor = (tried: readonly Entity<"flight">[], moves: number) => {
    const movable = scene.movable.filter(({ id }) => !moved.has(id));
    const moveScene = moveSceneOf({ ...scene, movable }, planWith(), runs);
    for (const leftOut of tried) {
      const found = moveFlights(moveScene, moves, leftOut.id);
      if (found !== null) return { leftOut, moves: found };
    }
    return null;
  };
  // The last first: what flies later is what there is time to bring forward for.
  for (let tried = flights.toReversed(); tried.length > 0 && flights.length > 1 && runs.left > 0;) {
    const found = madeUpFor(tried, 1);
    if (found === null) break;
    tried = tried.slice(tried.indexOf(found.leftOut) + 1);
    flights = flights.filter((row) => row !== found.leftOut);
    moved = new Map([...moved, ...found.moves]);
  }
  if (moved.size === 0) {
    const found = madeUpFor(flights.toReversed(), 2);
    if (found === null) return null;
    flights = flights.filter((row) => row !== found.leftOut);
    moved = found.moves;
  }
  const hulls = new Set(flights.map(({ craftId }) => craftId));
  return repairOf(scene, moved, { flights, craft: further.craft.filter(({ id }) => hulls.has(id)) }, false);
};

/** Throws "refused" in words where the question cannot be asked. */
export const repair = (plan: PlanSnapshot, asked: RepairAsked, solve: SolveLinear, working: Working): RepairAnswer => {
  const { plan: after, goneIds } = withoutLostHulls(withMishaps(plan, asked));
  const { mishaps, ...chosen } = asked;
  const all: ResupplyAsked = { ...usualAsked, ...chosen };
  const priceOf = new Map(after.craftClasses.map(({ id, costPerFlight }) => [id, costPerFlight]));
  const classOf = new Map(after.craft.map(({ id, classId }) => [id, classId]));
  const costOf = (flight: Entity<"flight">): number | null => priceOf.get(classOf.get(flight.craftId) ?? "") ?? null;
  const struck = new Set(mishaps.map(({ flightId }) => flightId));
  const movable = after.flights.filter((row) => isReplaceable(after, row) && !struck.has(row.id));
  const broken = brokenIn(after, asked);
  const base = { goal: asked.goal, present: sumsOf(after, asked.goal, costOf), broken, goneIds };
  const none = { ways: [], unheld: [], binds: [], cures: [], leastChanges: 1, isStopped: false };
  if (broken.length === 0) return { ...base, ...none, standing: "holds" };
  const shouldStop = (): boolean => working.shouldStop();
  const scene: Scene = { plan: after, asked, all, movable, goneIds, costOf, shouldStop };
  working.tell({ share: null, words: "Looking for the least change" });
  const moveScene = moveSceneOf(scene, after, { left: MAX_MOVING_RUNS });
  const moves = moveFlights(moveScene);
  const further = adding(scene, solve);
  const found = [
    moves === null ? null : repairOf(scene, moves, { flights: [], craft: [] }, false),
    further === null ? null : repairOf(scene, new Map(), further, further.isProved),
    further === null ? null : mixing(scene, further),
  ].filter((way) => way !== null);
  if (found.length > 0) {
    const ways = found.toSorted((a, b) => a.changes - b.changes || a.added.length - b.added.length);
    const { problem } = makeProblem(after, all);
    const least = leastChanges(ways[0]?.changes ?? 1, after, problem, movable, moveScene.instants, solve, shouldStop);
    return { ...base, ...none, standing: "repaired", ways, leastChanges: least, isStopped: shouldStop() };
  }
  if (shouldStop()) return { ...base, ...none, standing: "none", isStopped: true };
  const { unheld, binds, cures, isStopped } = planResupply(after, all, solve, {
    tell: () => working.tell({ share: null, words: "Looking for what would cure it" }),
    shouldStop,
  });
  return { ...base, ...none, standing: "none", unheld, binds, cures, isStopped };
};
