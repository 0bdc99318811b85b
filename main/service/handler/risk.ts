/** Risk: the inputs in force, a run, what it hangs on, two cases beside each other, and the runs that are kept. */
import type { OperationName } from "../../../app/contract/contract.ts";
import { PlanningError } from "../../../app/ground/failure.ts";
import type { RunAsked } from "../../../app/risk/ask-risk.ts";
import { inputsInForce } from "../../../app/risk/inputs-in-force.ts";
import { answerText } from "../../../app/risk/kept-run.ts";
import { observedInputs } from "../../../app/risk/observed.ts";
import { KERNEL_VERSION } from "../../../app/risk/risk-job.ts";
import type { Context, HandlersOf } from "../context.ts";
import { viewOf } from "../plan-of.ts";
import { isStaleRun, riskBaseOf, riskHashNow, riskPairOf, sha256 } from "../risk-base.ts";
import { ask } from "../work/ask.ts";

export const riskHandlers: HandlersOf<Extract<OperationName, `risk.${string}`>> = {
  "risk.inputs": ({ planCaseId }, { ledger }) => {
    const { plan, readings } = viewOf(ledger.store(), planCaseId);
    return inputsInForce(plan, readings).list;
  },
  "risk.observed": ({ planCaseId }, { ledger }) => {
    const store = ledger.store();
    return observedInputs(viewOf(store, planCaseId).plan, store);
  },
  "risk.run": async ({ planCaseId, ...asked }, context) =>
    await ask(context, "risk.run", riskBaseOf(context.ledger.store(), planCaseId), asked),
  "risk.causes": async ({ planCaseId, ...asked }, context) =>
    await ask(context, "risk.causes", riskBaseOf(context.ledger.store(), planCaseId), asked),
  "risk.compare": async ({ planCaseId, compareId, ...asked }, context) => {
    const store = context.ledger.store();
    return await ask(
      context,
      "risk.compare",
      riskPairOf(riskBaseOf(store, planCaseId), riskBaseOf(store, compareId)),
      asked,
    );
  },
  "risk.keep": async ({ planCaseId, ...asked }, context) => {
    const store = context.ledger.store();
    const base = riskBaseOf(store, planCaseId);
    // What was just run is found again by its hash; nothing is run twice.
    const answer = await ask(context, "risk.run", base, asked);
    if (answer.replications === 0)
      throw new PlanningError("cancelled", "Nothing was run before it was stopped: there is nothing to keep.");
    if (context.ledger.store() !== store)
      throw new PlanningError("cancelled", "Another ledger was opened meanwhile. Nothing was kept.");
    const { environment } = context;
    return store.keepRiskRun({
      runAt: environment.now(),
      author: environment.author(),
      caseName: base.plan.planCase.name,
      answer,
    });
  },
  "risk.runs": (_input, { ledger }) => {
    const store = ledger.store();
    return store.riskRuns().map((run) => ({
      ...run,
      isStale: isStaleRun(store, run),
    }));
  },
  "risk.kept": ({ number }, { ledger }) => ledger.store().riskRun(number).answer,
  "risk.delete": ({ number }, { ledger }) => {
    ledger.store().deleteRiskRun(number);
    return { number };
  },
  "risk.replay": async ({ number }, context) => await replay(context, number),
};

const replay = async (context: Context, number: number) => {
  const store = context.ledger.store();
  const kept = store.riskRun(number);
  const says = (remark: string) => ({ number, isSame: false, remark });
  if (kept.kernelVersion !== KERNEL_VERSION) return says("It was run by another version of this computation.");
  if (riskHashNow(store, kept.planCaseId) !== kept.inputHash)
    return says("The plan or the records are no longer those of this run: undo to them, or read it as it was kept.");
  const asked: RunAsked = {
    seed: kept.seed,
    runs: kept.replications,
    untilError: null,
    detail: kept.answer.bands.length > 0 ? "full" : "quick",
  };
  const again = await ask(context, "risk.run", riskBaseOf(store, kept.planCaseId), asked);
  if (again.replications !== kept.replications) return says("It was stopped before it was whole.");
  // Why a run ended is no part of what it found.
  const isSame = sha256(answerText({ ...again, end: kept.answer.end })) === kept.answerHash;
  return {
    number,
    isSame,
    remark: isSame ? null : "The same inputs and seed gave other numbers: this must not happen.",
  };
};
