/** The supply check of a plan case, and what would cure a short sortie. */
import type { HandlersOf } from "../context.ts";
import { viewOf } from "../plan-of.ts";
import { ask } from "../work/ask.ts";

export const supplyHandlers: HandlersOf<"supply.check" | "supply.cures"> = {
  "supply.check": async ({ planCaseId, asOfAt }, context) =>
    await ask(context, "supply.check", viewOf(context.ledger.store(), planCaseId, asOfAt).plan, null),
  "supply.cures": async ({ planCaseId, sortieId }, context) =>
    await ask(context, "supply.cures", viewOf(context.ledger.store(), planCaseId).plan, { sortieId }),
};
