/** Risk: the inputs in force, a run, what it hangs on, two cases beside each other, and the runs that are kept. */
import { createHash } from "node:crypto";
import type { OperationName } from "../../../app/contract/contract.ts";
import { PlanningError } from "../../../app/contract/failure.ts";
import { toTypedJson } from "../../../app/contract/typed-json.ts";
import type { PlanView } from "../../../app/contract/ledger-view.ts";
import type { LedgerStore } from "../../../app/ledger/store.ts";
import type { RiskBase, RunAsked } from "../../../app/risk/ask-risk.ts";
import { inputsInForce } from "../../../app/risk/inputs-in-force.ts";
import { answerText } from "../../../app/risk/kept-run.ts";
import { observedInputs } from "../../../app/risk/observed.ts";
import { KERNEL_VERSION } from "../../../app/risk/risk-job.ts";
import type { Context, HandlersOf } from "../context.ts";
import { viewOf } from "../plan-of.ts";
import { ask } from "../work/ask.ts";

const sha256 = (text: string): string => createHash("sha256").update(text).digest("hex");

/** One base a view: the same object is hashed and sent once. */
const bases = new WeakMap<PlanView, RiskBase>();

const baseOf = (store: LedgerStore, planCaseId: string): RiskBase => {
  const view = viewOf(store, planCaseId);
  const known = bases.get(view);
  if (known !== undefined) return known;
  const { plan, readings } = view;
  const base = { plan, readings, inputHash: sha256(toTypedJson({ plan, readings })) };
  bases.set(view, base);
  return base;
};

/** The pairs of bases that were compared, so that they are sent once. */
const pairs = new WeakMap<RiskBase, WeakMap<RiskBase, { readonly first: RiskBase; readonly second: RiskBase }>>();

const pairOf = (first: RiskBase, second: RiskBase) => {
  const known = pairs.get(first) ?? new WeakMap<RiskBase, { readonly first: RiskBase; readonly second: RiskBase }>();
  pairs.set(first, known);
  const pair = known.get(second) ?? { first, second };
  known.set(second, pair);
  return pair;
};

/** The hash of a case's inputs as they are now; null: the case is gone. */
const hashNow = (store: LedgerStore, planCaseId: string): string | null =>
  store.entities().planCase.some(({ id }) => id === planCaseId) ? baseOf(store, planCaseId).inputHash : null;

export const riskHandlers: HandlersOf<Extract<OperationName, `risk.${string}`>> = {
  "risk.inputs": ({ planCaseId }, { session }) => {
    const { plan, readings } = viewOf(session.store(), planCaseId);
    return inputsInForce(plan, readings).list;
  },
  "risk.observed": ({ planCaseId }, { session }) => {
    const store = session.store();
    return observedInputs(viewOf(store, planCaseId).plan, store);
  },
  "risk.run": async ({ planCaseId, ...asked }, context) =>
    await ask(context, "risk.run", baseOf(context.session.store(), planCaseId), asked),
  "risk.causes": async ({ planCaseId, ...asked }, context) =>
    await ask(context, "risk.causes", baseOf(context.session.store(), planCaseId), asked),
  "risk.compare": async ({ planCaseId, compareId, ...asked }, context) => {
    const store = context.session.store();
    return await ask(context, "risk.compare", pairOf(baseOf(store, planCaseId), baseOf(store, compareId)), asked);
  },
  "risk.keep": async ({ planCaseId, ...asked }, context) => {
    const store = context.session.store();
    const base = baseOf(store, planCaseId);
    // What was just run is found again by its hash; nothing is run twice.
    const answer = await ask(context, "risk.run", base, asked);
    if (answer.replications === 0)
      throw new PlanningError("cancelled", "Nothing was run before it was stopped: there is nothing to keep.");
    if (context.session.store() !== store)
      throw new PlanningError("cancelled", "Another ledger was opened meanwhile. Nothing was kept.");
    const { environment } = context;
    return store.keepRiskRun({
      runAt: environment.now(),
      author: environment.author(),
      caseName: base.plan.planCase.name,
      answer,
    });
  },
  "risk.runs": (_input, { session }) => {
    const store = session.store();
    return store.riskRuns().map((run) => ({
      ...run,
      isStale: run.kernelVersion !== KERNEL_VERSION || run.inputHash !== hashNow(store, run.planCaseId),
    }));
  },
  "risk.kept": ({ number }, { session }) => session.store().riskRun(number).answer,
  "risk.delete": ({ number }, { session }) => {
    session.store().deleteRiskRun(number);
    return { number };
  },
  "risk.replay": async ({ number }, context) => await replay(context, number),
};

const replay = async (context: Context, number: number) => {
  const store = context.session.store();
  const kept = store.riskRun(number);
  const says = (remark: string) => ({ number, isSame: false, remark });
  if (kept.kernelVersion !== KERNEL_VERSION) return says("It was run by another version of this computation.");
  if (hashNow(store, kept.planCaseId) !== kept.inputHash)
    return says("The plan or the records are no longer those of this run: undo to them, or read it as it was kept.");
  const asked: RunAsked = {
    seed: kept.seed,
    runs: kept.replications,
    untilError: null,
    detail: kept.answer.bands.length > 0 ? "full" : "quick",
  };
  const again = await ask(context, "risk.run", baseOf(store, kept.planCaseId), asked);
  if (again.replications !== kept.replications) return says("It was stopped before it was whole.");
  // Why a run ended is no part of what it found.
  const isSame = sha256(answerText({ ...again, end: kept.answer.end })) === kept.answerHash;
  return {
    number,
    isSame,
    remark: isSame ? null : "The same inputs and seed gave other numbers: this must not happen.",
  };
};
