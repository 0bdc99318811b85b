/**
 * How many changes a repair needs at least, flights moved and further ones alike. A flight that is moved helps no more than
 * one that stays with a further one where it was moved to, ports and hulls aside: so the fewest further flights without
 * these limits are a bound for both, when a further flight is let carry and do all that a moved one could.
 */
import type { PlanSnapshot } from "../entity/plan.ts";
import type { Entity } from "../entity/entities.ts";
import type { SolveLinear } from "./linear.ts";
import type { Lane, Problem } from "./problem.ts";
import { prepare, search } from "./search.ts";

const MAX_ROUNDS = 4;
const MAX_LABELS = 40_000;
/** A repair of more changes is not asked about: it takes longer than anybody waits for a repair. */
const MAX_CHANGES = 12;
/** With more ports than this the sets of flights at an instant are too many. */
const MAX_AT_ONCE = 2;

/** A lane whose flights can be there when, as long, and with as much as any of these could. */
const coveringLane = (lane: Lane, flights: readonly Entity<"flight">[]): Lane => {
  const loadOf = (propellantId: string): number =>
    Math.max(
      0,
      ...flights.flatMap(({ loads }) =>
        loads.filter((row) => row.propellantId === propellantId).map(({ loadedKg }) => loadedKg),
      ),
    );
  const { craftClass } = lane;
  return {
    ...lane,
    tripMs: Math.min(lane.tripMs, ...flights.map(({ departAt, arriveAt }) => arriveAt - departAt)),
    craftClass: {
      ...craftClass,
      berthDays: Math.max(craftClass.berthDays, ...flights.map(({ berthDays }) => berthDays)),
      propellants: craftClass.propellants.map((row) => ({
        ...row,
        loadKg: Math.max(row.loadKg, loadOf(row.propellantId)),
      })),
    },
  };
};

/** Whether a moved flight is one of a lane: of its class to its depot, with nothing aboard that the class does not carry. */
const isOfLane = ({ craftClass, depotId, originDepotId, planned }: Lane, flight: Entity<"flight">, classId: string) =>
  planned === null &&
  originDepotId === null &&
  craftClass.id === classId &&
  depotId === flight.depotId &&
  flight.berthDays > 0 &&
  flight.loads.every(({ propellantId }) => craftClass.propellants.some((row) => row.propellantId === propellantId));

/**
 * Fewer changes than this are impossible at the instants of a problem; 1 where no more is known. `found`: changes of the
 * best repair so far; `movable`: flights that may be moved; `instants`: to which.
 */
export const leastChanges = (
  found: number,
  plan: PlanSnapshot,
  problem: Problem,
  movable: readonly Entity<"flight">[],
  instants: ReadonlyMap<string, readonly number[]>,
  solve: SolveLinear,
  shouldStop: () => boolean,
): number => {
  if (found < 2 || found > MAX_CHANGES) return 1;
  const { lanes } = problem;
  const depots = new Set(lanes.map(({ depotId }) => depotId));
  const atOnce = Math.max(...plan.depots.filter(({ id }) => depots.has(id)).map(({ ports }) => ports));
  const classOf = new Map(plan.craft.map(({ id, classId }) => [id, classId]));
  const concerned = movable.filter(({ depotId }) => depots.has(depotId));
  const isOf = (lane: Lane, row: Entity<"flight">): boolean => isOfLane(lane, row, classOf.get(row.craftId) ?? "");
  const isOpen = (lane: number, at: number): boolean =>
    problem.isOpen[problem.instants.indexOf(at) * lanes.length + lane] === 1;
  const isCovered =
    atOnce <= MAX_AT_ONCE &&
    concerned.every((row) => lanes.some((lane) => isOf(lane, row))) &&
    lanes.every(({ depotId }, lane) => (instants.get(depotId) ?? []).every((at) => isOpen(lane, at)));
  if (!isCovered) return 1;
  const covering = lanes.map((lane) =>
    coveringLane(
      lane,
      concerned.filter((row) => isOf(lane, row)),
    ),
  );
  const bare = { ...problem, lanes: covering, resources: [], mostAtOnce: Math.max(1, atOnce) };
  const { lower } = search(prepare(bare), {
    solve,
    endValue: 0,
    mostRounds: MAX_ROUNDS,
    mostLabels: MAX_LABELS,
    shouldStop,
  });
  // Infinity: not even with all that may fly; then no way is found, and nothing is said of how many.
  return Number.isFinite(lower) ? Math.max(1, lower) : 1;
};
