/** Studies: the points of a study folder, and those of a study on screen, in the threads. */
import type { OperationName } from "../../../app/contract/contract.ts";
import { toTypedJson } from "../../../app/contract/typed-json.ts";
import type { LedgerStore } from "../../../app/contract/store.ts";
import type { PlanView } from "../../../app/ledger/ledger-view.ts";
import type { StudyOnScreen } from "../../../app/study/ask-study.ts";
import type { StudyAsked } from "../../../app/study/question.ts";
import type { HandlersOf } from "../context.ts";
import { viewOf } from "../plan-of.ts";
import { riskBaseOf, sha256 } from "../risk-base.ts";
import { commitStep, planStep } from "../step.ts";
import { ask } from "../work/ask.ts";

/** What was asked last of a view: the same object each time, so that threads know it again. */
const bases = new WeakMap<PlanView, StudyOnScreen>();

const baseOf = (store: LedgerStore, planCaseId: string, asked: StudyAsked): StudyOnScreen => {
  const view = viewOf(store, planCaseId);
  const inputHash = sha256(`${riskBaseOf(store, planCaseId).inputHash} ${toTypedJson(asked)}`);
  const known = bases.get(view);
  if (known?.inputHash === inputHash) return known;
  const base = { plan: view.plan, readings: view.readings, asked, inputHash };
  bases.set(view, base);
  return base;
};

export const studyHandlers: HandlersOf<Extract<OperationName, `study.${string}`>> = {
  "study.run": async ({ folder, shard }, context) =>
    await (await import("../../study/run-shards.ts")).runShards(folder, shard, context),
  // What was measured is not kept, and rows are the page's: a study of the morning shall not fill the memory of the day.
  "study.cost": async ({ planCaseId, asked }, { session, runner, lane, signal, progress }) => {
    const base = baseOf(session.store(), planCaseId, asked);
    return await runner.run({ name: "study.cost", base, baseKey: base.inputHash, asked: null, lane }, signal, progress);
  },
  "study.ask": async ({ planCaseId, asked, from }, { session, runner, lane, signal, progress }) => {
    const base = baseOf(session.store(), planCaseId, asked);
    return await runner.run(
      { name: "study.ask", base, baseKey: base.inputHash, asked: { from }, lane },
      signal,
      progress,
    );
  },
  "study.edges": async ({ planCaseId, ...asked }, context) =>
    await ask(context, "study.edges", viewOf(context.session.store(), planCaseId).plan, asked),
  "study.open": async ({ planCaseId, asked, values, newId, name }, context) => {
    // Loaded before the ledger is read: nothing comes between reading and writing.
    const { pointCase } = await import("../../../app/study/point-case.ts");
    const store = context.session.store();
    const copy = { fromId: planCaseId, newId, name };
    const changes = pointCase(store.entities(), baseOf(store, planCaseId, asked), values, copy, (kind) =>
      context.environment.newId(kind.toLowerCase()),
    );
    return commitStep(context, planStep(context, `New plan case ${name}`, { changes }));
  },
};
