/** Ways to fly the sortie: the tanker flights that each needs. */
import type { HandlersOf } from "../context.ts";
import { viewOf } from "../plan-of.ts";
import { ask } from "../work/ask.ts";

export const waysHandlers: HandlersOf<"ways.needed"> = {
  "ways.needed": async ({ planCaseId, ...asked }, context) =>
    await ask(context, "ways.needed", viewOf(context.ledger.store(), planCaseId).plan, asked),
};
