/**
 * How many changes a repair needs at least, flights moved and further ones alike. A flight that is moved helps no more than
 * one that stays with a further one where it was moved to, ports and hulls aside: so the fewest further flights without
 * these limits are a bound for both, as long as a further flight can do all that a moved one could.
 */
import type { PlanSnapshot } from "../entity/plan.ts";
import type { Entity } from "../entity/entities.ts";
import type { SolveLinear } from "./linear.ts";
import type { Problem } from "./problem.ts";
import { prepare, search } from "./search.ts";

const MAX_ROUNDS = 4;
const MAX_LABELS = 40_000;
/** A repair of more changes is not asked about: it takes longer than anybody waits for a repair. */
const MAX_CHANGES = 12;
/** With more ports than this the sets of flights at an instant are too many. */
const MAX_AT_ONCE = 2;
/** Instants are whole milliseconds, lengths of transits are not. */
const SAME_MS = 1000;

/** Whether a further flight can be there when and with what a moved one could. */
const isMatched = ({ lanes }: Problem, flight: Entity<"flight">, classId: string | undefined): boolean =>
  lanes.some(
    ({ craftClass, depotId, originDepotId, planned, tripMs }) =>
      planned === null &&
      originDepotId === null &&
      craftClass.id === classId &&
      depotId === flight.depotId &&
      tripMs <= flight.arriveAt - flight.departAt + SAME_MS &&
      flight.berthDays > 0 &&
      craftClass.berthDays >= flight.berthDays &&
      flight.loads.every(
        ({ propellantId, loadedKg }) =>
          loadedKg <= (craftClass.propellants.find((row) => row.propellantId === propellantId)?.loadKg ?? 0),
      ),
  );

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
  const isOpen = (lane: number, at: number): boolean =>
    problem.isOpen[problem.instants.indexOf(at) * lanes.length + lane] === 1;
  const isCovered =
    atOnce <= MAX_AT_ONCE &&
    movable.every((row) => !depots.has(row.depotId) || isMatched(problem, row, classOf.get(row.craftId))) &&
    lanes.every(({ depotId }, lane) => (instants.get(depotId) ?? []).every((at) => isOpen(lane, at)));
  if (!isCovered) return 1;
  const { lower } = search(prepare({ ...problem, resources: [], mostAtOnce: Math.max(1, atOnce) }), {
    solve,
    endValue: 0,
    mostRounds: MAX_ROUNDS,
    mostLabels: MAX_LABELS,
    shouldStop,
  });
  // Infinity: not even with all that may fly; then no way is found, and nothing is said of how many.
  return Number.isFinite(lower) ? Math.max(1, lower) : 1;
};
