/** Repairs of the whole plan as rows beside the cures of one sortie: the same columns, by the same forecast. */
import type { Change } from "../../app/entity/entities.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { proposedPlan } from "../../app/resupply/proposed-plan.ts";
import type { RepairAnswer, FoundRepair } from "../../app/resupply/repair-answer.ts";
import { repairSentence } from "../../app/resupply/repair-words.ts";
import type { Cure, Outlook } from "../../app/supply/cures/cure.ts";
import { fareOf, outlookOf } from "../../app/supply/cures/outlook.ts";

/** The plan as a way leaves it. */
const repairedPlan = (plan: PlanSnapshot, { taken }: FoundRepair): PlanSnapshot => {
  const times = new Map(taken.moved.map((row) => [row.flightId, row]));
  const flights = plan.flights.map((row) => {
    const to = times.get(row.id);
    return to === undefined ? row : { ...row, departAt: to.departAt, arriveAt: to.arriveAt };
  });
  return proposedPlan({ ...plan, flights }, taken);
};

const changesOf = (plan: PlanSnapshot, way: FoundRepair): readonly Change[] => {
  const { taken } = way;
  const moved = new Set(taken.moved.map(({ flightId }) => flightId));
  return [
    ...taken.craft.map((value): Change => ({ op: "put", kind: "craft", value })),
    ...repairedPlan(plan, way)
      .flights.filter(({ id }) => moved.has(id))
      .map((value): Change => ({ op: "put", kind: "flight", value })),
    ...taken.added.map((value): Change => ({ op: "put", kind: "flight", value })),
    ...taken.leftOutIds.map((id): Change => ({ op: "remove", kind: "flight", id })),
  ];
};

/** Every way of a repair as a cure, with what it does to each sortie. `now`: the plan as it is. */
export const repairCures = (
  plan: PlanSnapshot,
  answer: RepairAnswer,
  sortieId: string,
  now: Outlook,
): readonly Cure[] => {
  const breaksNow = new Set(outlookOf(plan).breaks);
  return answer.ways.map((way, n): Cure => {
    const { outlook, breaks } = outlookOf(repairedPlan(plan, way));
    const others = outlook.sorties.flatMap((row) => {
      const before = now.sorties.find((other) => other.sortieId === row.sortieId);
      return row.sortieId === sortieId || before === undefined
        ? []
        : [{ id: row.sortieId, by: fareOf(row) - fareOf(before) }];
    });
    return {
      id: `repair ${String(n)}`,
      kind: way.added.length > 0 ? "one more flight" : "move",
      words: repairSentence(answer, way),
      changes: changesOf(plan, way),
      isCured: outlook.sorties.some((row) => row.sortieId === sortieId && row.outcome === "flies"),
      betterIds: others.filter(({ by }) => by > 0).map(({ id }) => id),
      worseIds: others.filter(({ by }) => by < 0).map(({ id }) => id),
      newBreaks: breaks.filter((words) => !breaksNow.has(words)),
      caution: null,
      outlook,
    };
  });
};
