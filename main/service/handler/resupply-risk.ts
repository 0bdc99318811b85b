/** The risk of a proposal that no plan case has yet, beside the plan that it was made for. */
import { proposedPlan } from "../../../app/resupply/proposed-plan.ts";
import type { RiskBase } from "../../../app/risk/ask-risk.ts";
import type { HandlersOf } from "../context.ts";
import { viewOf } from "../plan-of.ts";
import { proposalBaseOf } from "../proposal-base.ts";
import { ask } from "../work/ask.ts";

export const resupplyRiskHandlers: HandlersOf<"resupply.risk"> = {
  "resupply.risk": async ({ planCaseId, seed, runs, ...proposal }, context) => {
    const view = viewOf(context.ledger.store(), planCaseId);
    const first = proposalBaseOf(view);
    const second = proposalBaseOf({ plan: proposedPlan(view.plan, proposal), readings: view.readings });
    const run = async (base: RiskBase) =>
      await ask(context, "risk.run", base, { seed, runs, untilError: null, detail: "quick" });
    const present = await run(first);
    const proposed = await run(second);
    const difference = await ask(context, "risk.compare", { first, second }, { seed, runs });
    return { present, proposed, difference };
  },
};
