/** What a move changed, in a sentence or two: read aloud after each step and each drop. */
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import type { SupplyGlance } from "../../../app/supply/answer.ts";
import type { MassUnit } from "../../format/mass.ts";
import { supplyWords } from "./item-words.ts";

/** At most this many sorties are named. */
const MAX_NAMED = 3;

const key = (status: string, outcome: string): string => `${status}/${outcome}`;

/** "Sortie 4 is short by 1.90 t of hydrogen." Sorties whose status is as it was are not named. */
export const consequences = (plan: PlanSnapshot, before: SupplyGlance, after: SupplyGlance, unit: MassUnit): string => {
  const old = new Map(before.sorties.map((supply) => [supply.sortieId, key(supply.status, supply.outcome)]));
  const changed = after.sorties.filter((supply) => old.get(supply.sortieId) !== key(supply.status, supply.outcome));
  if (changed.length === 0) return "Every sortie keeps its status.";
  const sentences = changed
    .slice(0, MAX_NAMED)
    .map((supply) => `${supply.name} is ${supplyWords(plan, supply, unit)}.`);
  const rest = changed.length - sentences.length;
  return [
    ...sentences,
    ...(rest > 0 ? [`${rest} more ${rest === 1 ? "sortie changes" : "sorties change"}.`] : []),
  ].join(" ");
};
