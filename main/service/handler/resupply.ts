/** Resupply: the search, and its proposal taken as a plan case. */
import { takeProposal } from "../../../app/resupply/take-proposal.ts";
import type { HandlersOf } from "../context.ts";
import { viewOf } from "../plan-of.ts";
import { commitStep, planStep } from "../step.ts";
import { ask } from "../work/ask.ts";

export const resupplyHandlers: HandlersOf<"resupply.plan" | "resupply.leaveBy" | "resupply.take"> = {
  "resupply.plan": async ({ planCaseId, ...asked }, context) =>
    await ask(context, "resupply.plan", viewOf(context.session.store(), planCaseId).plan, asked),
  "resupply.leaveBy": async ({ planCaseId }, context) =>
    await ask(context, "resupply.leaveBy", viewOf(context.session.store(), planCaseId).plan, null),
  "resupply.take": (taken, context) => {
    const changes = takeProposal(context.session.store().entities(), taken, (kind) =>
      context.environment.newId(kind.toLowerCase()),
    );
    return commitStep(context, planStep(context, `New plan case ${taken.name}`, { changes }));
  },
};
