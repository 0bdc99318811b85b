/** Resupply: the search, and its proposal taken as a plan case. */
import type { ResupplyAnswer } from "../../../app/resupply/answer.ts";
import type { ResupplyAsked } from "../../../app/resupply/asked.ts";
import { likelyPlan } from "../../../app/resupply/likely-plan.ts";
import { proposalOf, proposedPlan } from "../../../app/resupply/proposed-plan.ts";
import { takeProposal, takeProposalHere } from "../../../app/resupply/take-proposal.ts";
import type { HandlersOf } from "../context.ts";
import { viewOf } from "../plan-of.ts";
import { proposalBaseOf } from "../proposal-base.ts";
import { commitStep, planStep } from "../step.ts";
import { ask } from "../work/ask.ts";

/** Runs by which the plans of one question are judged: under the same draws. */
const JUDGED_RUNS = 4096;
const JUDGED_SEED = 1;

export const resupplyHandlers: HandlersOf<
  "resupply.plan" | "resupply.leaveBy" | "resupply.repair" | "resupply.take" | "resupply.takeHere"
> = {
  "resupply.plan": async ({ planCaseId, ...asked }, context) => {
    const view = viewOf(context.ledger.store(), planCaseId);
    const plan = async (of: ResupplyAsked) => await ask(context, "resupply.plan", view.plan, of);
    if (asked.chance === null) return await plan(asked);
    const judge = async (answer: ResupplyAnswer) => {
      const base = proposalBaseOf({ plan: proposedPlan(view.plan, proposalOf(answer)), readings: view.readings });
      const risk = await ask(context, "risk.run", base, {
        seed: JUDGED_SEED,
        runs: JUDGED_RUNS,
        untilError: null,
        detail: "quick",
      });
      return { share: risk.allFlyWhenPlanned, replications: risk.replications };
    };
    return await likelyPlan(asked, asked.chance, { plan, judge });
  },
  "resupply.leaveBy": async ({ planCaseId }, context) =>
    await ask(context, "resupply.leaveBy", viewOf(context.ledger.store(), planCaseId).plan, null),
  "resupply.repair": async ({ planCaseId, ...asked }, context) =>
    await ask(context, "resupply.repair", viewOf(context.ledger.store(), planCaseId).plan, asked),
  "resupply.take": (taken, context) => {
    const changes = takeProposal(context.ledger.store().entities(), taken, (kind) =>
      context.environment.newId(kind.toLowerCase()),
    );
    return commitStep(context, planStep(context, `New plan case ${taken.name}`, { changes }));
  },
  "resupply.takeHere": (taken, context) => {
    const changes = takeProposalHere(context.ledger.store().entities(), taken, (kind) =>
      context.environment.newId(kind.toLowerCase()),
    );
    const count = taken.added.length + taken.leftOutIds.length + (taken.moved?.length ?? 0);
    return commitStep(
      context,
      planStep(context, `Take ${count} ${count === 1 ? "flight" : "flights"} of a proposal`, { changes }),
    );
  },
};
