/** What is said first wherever a plan is shown that leaves later records out. */
import type { PlanSnapshot } from "../entity/plan.ts";
import { formatMinute } from "../format/time.ts";
import { counted } from "../words/counted.ts";

/** null: nothing is left out. */
export const lookBackSentence = ({ asOfAt, lookBack }: Pick<PlanSnapshot, "asOfAt" | "lookBack">): string | null => {
  if (lookBack === undefined) return null;
  const { leftOut, lastAt } = lookBack;
  return `Looking back: this is what was known on ${formatMinute(asOfAt)}. ${counted(leftOut, "later record")}, the last of ${formatMinute(lastAt)}, ${leftOut === 1 ? "is" : "are"} left out.`;
};
