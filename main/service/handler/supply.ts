/** The supply check of a plan case. */
import type { HandlersOf } from "../context.ts";
import { viewOf } from "../plan-of.ts";
import { ask } from "../work/ask.ts";

export const supplyHandlers: HandlersOf<"supply.check"> = {
  "supply.check": async ({ planCaseId }, context) =>
    await ask(context, "supply.check", viewOf(context.session.store(), planCaseId).plan, null),
};
