/** How far each sortie holds along one input: the edge of every sortie ahead. */
import type { PlanSnapshot } from "../entity/plan.ts";
import { type Working, stopped } from "../work/working.ts";
import { type EdgeAnswer, findEdge } from "./edge.ts";
import type { InputAsked } from "./question.ts";

export interface EdgesAsked {
  readonly input: InputAsked;
  /** In the unit of the input. */
  readonly tolerance: number;
}

/** Throws in words what cannot be asked; "cancelled" where it is stopped. */
export const findEdges = (
  plan: PlanSnapshot,
  { input, tolerance }: EdgesAsked,
  working: Working,
): readonly EdgeAnswer[] => {
  const ahead = plan.sorties.filter(({ status, loadAt }) => status === "planned" && loadAt <= plan.horizonAt);
  return ahead.map(({ id }, index) => {
    if (working.shouldStop()) throw stopped();
    working.tell({
      share: index / ahead.length,
      words: "Looking for the edges",
      done: { count: index, unit: "sorties" },
    });
    return findEdge(plan, { input, sortie: id, tolerance });
  });
};
