/** The supply check: computed beside the commands, kept until the ledger changes. */
import { planView } from "../../../app/ledger/plan-view.ts";
import type { HandlersOf } from "../context.ts";
import { supplyOf } from "../supply-of.ts";

export const supplyHandlers: HandlersOf<"supply.check"> = {
  "supply.check": ({ planCaseId }, context) =>
    supplyOf(context, planView(context.session.store(), planCaseId), context.progress),
};
