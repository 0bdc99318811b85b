/** Losses: the statement, a fit on the readings, a fit taken into the plan. */
import type { OperationName } from "../../../app/contract/contract.ts";
import { adoptFit } from "../../../app/losses/fit/adopt-fit.ts";
import { lossBook } from "../../../app/losses/loss-book.ts";
import { findEntity } from "../../../app/ledger/entity-index.ts";
import type { HandlersOf } from "../context.ts";
import { commitStep, planStep } from "../step.ts";

/** The fit's distributions take longer to load than all the rest: not before they are asked for. */
const loadFit = () => import("../../../app/losses/fit/fit-tank.ts");

export const lossesHandlers: HandlersOf<Extract<OperationName, `losses.${string}`>> = {
  "losses.statement": ({ planCaseId, edges, withComparison }, { session }) => {
    const store = session.store();
    return lossBook(store.entitiesOfCase(planCaseId), store, edges, withComparison);
  },
  "losses.fit": async ({ planCaseId, ...request }, { session }) => {
    const { fitTank } = await loadFit();
    const store = session.store();
    return fitTank(store.entitiesOfCase(planCaseId), store, request);
  },
  "losses.adopt": async ({ fit: { planCaseId, ...request }, id, fromAt, scope, reason }, context) => {
    // From here to the commit nothing waits: what the fit has read is what the step changes.
    const { fitTank } = await loadFit();
    const store = context.session.store();
    const entities = store.entitiesOfCase(planCaseId);
    const value = adoptFit(fitTank(entities, store, request), {
      id,
      tankId: request.tankId,
      planCaseId: scope === "plan case" ? planCaseId : null,
      fromAt,
      reason,
    });
    const tankName = findEntity(entities, "tank", request.tankId)?.name ?? request.tankId;
    const changes = [{ op: "put" as const, kind: "lossPeriod" as const, value }];
    return commitStep(context, planStep(context, `Adopt the fitted rate of ${tankName}`, { reason, changes }));
  },
};
