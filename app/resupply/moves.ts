/** The sets of flights that may arrive together at an instant. */
import type { Candidates } from "./candidates.ts";
import type { Relaxation } from "./relaxation.ts";

export interface Move {
  readonly cost: number;
  /** Compiled flights. */
  readonly flights: readonly number[];
  /** Lane of each. */
  readonly lanes: readonly number[];
}

/** Every move of a window, none first. */
export const movesAt = (
  candidates: Candidates,
  { groups, groupMost }: Relaxation,
  cost: Float64Array,
  window: number,
): readonly Move[] => {
  const { free, flightOf, lanes, problem } = candidates;
  const { mostAtOnce } = problem;
  let moves: readonly Move[] = [{ cost: 0, flights: [], lanes: [] }];
  groups.forEach((group, index) => {
    const roomAtAll = groupMost[window * groups.length + index] ?? 0;
    const ofGroup = (move: Move): number => move.lanes.filter((lane) => group.includes(lane)).length;
    const ofClass = (move: Move): number =>
      move.lanes.filter((lane) => group.includes(lane) && problem.lanes[lane]?.planned === null).length;
    for (const lane of group) {
      const isClass = problem.lanes[lane]?.planned === null;
      const longer: Move[] = [];
      for (const move of moves) {
        longer.push(move);
        let now = move;
        for (let copy = 0; copy < (free[window * lanes + lane] ?? 0); copy += 1) {
          if (ofGroup(now) >= roomAtAll || (isClass && ofClass(now) >= mostAtOnce)) break;
          now = {
            cost: now.cost + (cost[lane] ?? 0),
            flights: [...now.flights, flightOf[(window * lanes + lane) * mostAtOnce + copy] ?? -1],
            lanes: [...now.lanes, lane],
          };
          longer.push(now);
        }
      }
      moves = longer;
    }
  });
  return moves;
};
