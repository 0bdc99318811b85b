/** Losses: the statement, a fit on the readings, a fit taken into the plan. */
import type { Input, OperationName } from "../../../app/contract/contract.ts";
import { PlanningError } from "../../../app/ground/failure.ts";
import { adoptFit } from "../../../app/losses/fit/adopt-fit.ts";
import { tankFitQuestion } from "../../../app/losses/fit/fit-question.ts";
import type { TankFit } from "../../../app/losses/fit/fit-tank.ts";
import { lossBook } from "../../../app/losses/loss-book.ts";
import type { EntitySet } from "../../../app/entity/entities.ts";
import { findEntity } from "../../../app/entity/entity-index.ts";
import type { Context, HandlersOf } from "../context.ts";
import { commitStep, planStep } from "../step.ts";
import { ask } from "../work/ask.ts";

/** Between the reading and the answer of the worker the ledger may have moved on; so often a fit is made anew. */
const MAX_ATTEMPTS = 5;

interface Asked {
  readonly entities: EntitySet;
  readonly revision: number;
  readonly fit: TankFit;
}

/** The fit is made beside the service: windows that ask meanwhile do not wait for it. */
const fitInWorker = async ({ planCaseId, ...request }: Input<"losses.fit">, context: Context): Promise<Asked> => {
  const store = context.ledger.store();
  const { revision } = store.header();
  const entities = store.entitiesOfCase(planCaseId);
  const fit = await ask(context, "losses.fit", null, tankFitQuestion(entities, store, request));
  return { entities, revision, fit };
};

export const lossesHandlers: HandlersOf<Extract<OperationName, `losses.${string}`>> = {
  "losses.statement": ({ planCaseId, edges, withComparison }, { ledger }) => {
    const store = ledger.store();
    return lossBook(store.entitiesOfCase(planCaseId), store, edges, withComparison);
  },
  "losses.fit": async (input, context) => (await fitInWorker(input, context)).fit,
  "losses.adopt": async ({ fit: asked, id, fromAt, scope, reason }, context) => {
    for (let attempt = 0; attempt < MAX_ATTEMPTS; attempt++) {
      // eslint-disable-next-line no-await-in-loop -- each attempt reads what the one before found changed
      const { entities, revision, fit } = await fitInWorker(asked, context);
      // What the fit has read is what the step changes: from here to the commit nothing waits.
      if (context.ledger.store().header().revision !== revision) continue;
      const planCaseId = scope === "plan case" ? asked.planCaseId : null;
      const value = adoptFit(fit, { id, tankId: asked.tankId, planCaseId, fromAt, reason });
      const tankName = findEntity(entities, "tank", asked.tankId)?.name ?? asked.tankId;
      const changes = [{ op: "put" as const, kind: "lossPeriod" as const, value }];
      return commitStep(context, planStep(context, `Adopt the fitted rate of ${tankName}`, { reason, changes }));
    }
    throw new PlanningError("refused", "The ledger was changed while the rate was being fitted. Adopt it again.");
  },
};
