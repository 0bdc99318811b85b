/** The supply check of a plan case. */
import { planView } from "../../../app/ledger/plan-view.ts";
import type { HandlersOf } from "../context.ts";
import { ask } from "../work/ask.ts";

export const supplyHandlers: HandlersOf<"supply.check"> = {
  "supply.check": async ({ planCaseId }, context) =>
    await ask(context, "supply.check", planView(context.session.store(), planCaseId).plan, null),
};
