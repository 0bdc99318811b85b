/** What heads the text of every command whose plan leaves later records out. */
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { lookBackSentence } from "../../app/ledger/look-back-words.ts";

/** None, or one line. */
export const lookBackLines = (plan: Pick<PlanSnapshot, "asOfAt" | "lookBack">): readonly string[] => {
  const sentence = lookBackSentence(plan);
  return sentence === null ? [] : [sentence];
};
