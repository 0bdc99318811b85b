/** Resupply: the search, and its proposal taken as a plan case. */
import { takeProposal, takeProposalHere } from "../../../app/resupply/take-proposal.ts";
import type { HandlersOf } from "../context.ts";
import { viewOf } from "../plan-of.ts";
import { commitStep, planStep } from "../step.ts";
import { ask } from "../work/ask.ts";

export const resupplyHandlers: HandlersOf<
  "resupply.plan" | "resupply.leaveBy" | "resupply.repair" | "resupply.take" | "resupply.takeHere"
> = {
  "resupply.plan": async ({ planCaseId, ...asked }, context) =>
    await ask(context, "resupply.plan", viewOf(context.session.store(), planCaseId).plan, asked),
  "resupply.leaveBy": async ({ planCaseId }, context) =>
    await ask(context, "resupply.leaveBy", viewOf(context.session.store(), planCaseId).plan, null),
  "resupply.repair": async ({ planCaseId, ...asked }, context) =>
    await ask(context, "resupply.repair", viewOf(context.session.store(), planCaseId).plan, asked),
  "resupply.take": (taken, context) => {
    const changes = takeProposal(context.session.store().entities(), taken, (kind) =>
      context.environment.newId(kind.toLowerCase()),
    );
    return commitStep(context, planStep(context, `New plan case ${taken.name}`, { changes }));
  },
  "resupply.takeHere": (taken, context) => {
    const changes = takeProposalHere(context.session.store().entities(), taken, (kind) =>
      context.environment.newId(kind.toLowerCase()),
    );
    const count = taken.added.length + taken.leftOutIds.length + (taken.moved?.length ?? 0);
    return commitStep(
      context,
      planStep(context, `Take ${count} ${count === 1 ? "flight" : "flights"} of a proposal`, { changes }),
    );
  },
};
