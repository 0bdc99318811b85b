/** The cures of a short sortie side by side: each laid over the plan and forecast as exactly as the plan itself. */
import { PlanningError } from "../../ground/failure.ts";
import { applyChanges } from "../../entity/plan-changes.ts";
import type { PlanSnapshot } from "../../entity/plan.ts";
import { type Working, stopped } from "../../work/working.ts";
import { candidates } from "./candidates.ts";
import type { Cure, CureAnswer } from "./cure.ts";
import { compareFates, fareOf, outlookOf } from "./outlook.ts";

/** The least harm first: to the plan, to other sorties, to the reserve; then the fewest flights and the least loss. */
const orderFor =
  (sortieId: string) =>
  (a: Cure, b: Cure): number =>
    Number(b.isCured) - Number(a.isCured) ||
    a.newBreaks.length - b.newBreaks.length ||
    a.worseIds.length - b.worseIds.length ||
    fareIn(b, sortieId) - fareIn(a, sortieId) ||
    a.outlook.flights - b.outlook.flights ||
    a.outlook.lostKg - b.outlook.lostKg;

const fareIn = ({ outlook }: Cure, sortieId: string): number => {
  const fate = outlook.sorties.find((row) => row.sortieId === sortieId);
  return fate === undefined ? 0 : fareOf(fate);
};

/**
 * Every cure that can be tried for a sortie, with what it does to the whole plan. Cures that do not help are told as
 * well. A sortie that flies when planned has none. Throws "not found" for a sortie that is not ahead, "cancelled" when
 * it is stopped. Pure; the same plan gives the same answer.
 */
export const findCures = (plan: PlanSnapshot, sortieId: string, working: Working): CureAnswer => {
  const { outlook: now, breaks } = outlookOf(plan);
  const sortie = plan.sorties.find(({ id }) => id === sortieId);
  const fate = now.sorties.find((row) => row.sortieId === sortieId);
  if (sortie === undefined || fate === undefined)
    throw new PlanningError("not found", "This sortie is not ahead in this plan case.", "sortieId");
  if (fate.outcome === "flies" || sortie.status !== "planned") return { sortieId, now, cures: [] };
  const tried = candidates(plan, sortie, fate.firstPossibleAt);
  const known = new Set(breaks);
  const cures = tried.map((candidate, index): Cure => {
    if (working.shouldStop()) throw stopped();
    working.tell({ share: index / tried.length, words: "Trying what would cure it" });
    const then = outlookOf(applyChanges(plan, candidate.changes));
    const after = then.outlook.sorties.find((row) => row.sortieId === sortieId);
    return {
      ...candidate,
      isCured: after !== undefined && after.outcome !== "stands down",
      ...compareFates(now, then.outlook, sortieId),
      newBreaks: then.breaks.filter((sentence) => !known.has(sentence)),
      outlook: then.outlook,
    };
  });
  return { sortieId, now, cures: cures.toSorted(orderFor(sortieId)) };
};
