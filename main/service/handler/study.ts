/** Studies: the points of a study folder, and those of a study on screen, in the threads. */
import type { OperationName } from "../../../app/contract/contract.ts";
import { toTypedJson } from "../../../app/contract/typed-json.ts";
import type { LedgerStore } from "../../../app/contract/store.ts";
import type { PlanView } from "../../../app/ledger/ledger-view.ts";
import type { StudyOnScreen } from "../../../app/study/ask-study.ts";
import type { StudyAsked } from "../../../app/study/question.ts";
import type { StudyAnswer } from "../../../app/study/study-answer.ts";
import { joinTables, rowsIn } from "../../../app/study/study-table.ts";
import product from "../../../package.json" with { type: "json" };
import { PlanningError } from "../../../app/ground/failure.ts";
import type { HandlersOf } from "../context.ts";
import { viewOf } from "../plan-of.ts";
import { riskBaseOf, riskHashNow, sha256 } from "../risk-base.ts";
import { listedStudies } from "../reported-studies.ts";
import { commitStep, planStep } from "../step.ts";
import { ask } from "../work/ask.ts";

interface Latest {
  /** The same object each time, so that threads know it again. */
  readonly base: StudyOnScreen;
  /** What was answered of it, from the first point on without a gap: what the person may keep. */
  answers: readonly StudyAnswer[];
}

/** What was asked last of a view, and what was run last: a cost that is measured or a ranking does not push the rows out. */
const bases = new WeakMap<PlanView, StudyOnScreen>();
const latest = new WeakMap<PlanView, Latest>();

const baseOf = (store: LedgerStore, planCaseId: string, asked: StudyAsked): StudyOnScreen => {
  const view = viewOf(store, planCaseId);
  const inputHash = sha256(`${riskBaseOf(store, planCaseId).inputHash} ${toTypedJson(asked)}`);
  const known = bases.get(view);
  if (known?.inputHash === inputHash) return known;
  const base = { plan: view.plan, readings: view.readings, asked, inputHash };
  bases.set(view, base);
  return base;
};

/** An answer from the first point on begins anew; one that goes on from where the last one ended is put after it. */
const remember = (view: PlanView, base: StudyOnScreen, answer: StudyAnswer): void => {
  // A ranking has points of its own.
  if (base.asked.design.kind === "what matters") return;
  const known = latest.get(view);
  const before = answer.from === 0 || known?.base.inputHash !== base.inputHash ? [] : known.answers;
  const until = before.reduce((sum, { rows }) => sum + rowsIn(rows), 0);
  if (answer.from === until) latest.set(view, { base, answers: [...before, answer] });
};

/** All points in one answer; null: some are missing. */
const wholeOf = (answers: readonly StudyAnswer[]): StudyAnswer | null => {
  const [first] = answers;
  if (first === undefined || first.from !== 0) return null;
  const rows = joinTables(
    answers.map((answer) => answer.rows),
    first.columns.length,
  );
  return rowsIn(rows) === first.points ? { ...first, rows } : null;
};

/** What it is called in a list: what was varied. */
const nameOf = ({ inputs }: StudyAnswer): string => inputs.map(({ words }) => words).join(", ");

export const studyHandlers: HandlersOf<Extract<OperationName, `study.${string}`>> = {
  "study.run": async ({ folder, shard }, context) =>
    await (await import("../../study/run-shards.ts")).runShards(folder, shard, context),
  // What was measured is not kept, and rows are the page's: a study of the morning shall not fill the memory of the day.
  "study.cost": async ({ planCaseId, asked }, { ledger, runner, lane, signal, progress }) => {
    const base = baseOf(ledger.store(), planCaseId, asked);
    return await runner.run({ name: "study.cost", base, baseKey: base.inputHash, asked: null, lane }, signal, progress);
  },
  "study.ask": async ({ planCaseId, asked, from }, { ledger, runner, lane, signal, progress }) => {
    const view = viewOf(ledger.store(), planCaseId);
    const base = baseOf(ledger.store(), planCaseId, asked);
    const answer = await runner.run(
      { name: "study.ask", base, baseKey: base.inputHash, asked: { from }, lane },
      signal,
      progress,
    );
    remember(view, base, answer);
    return answer;
  },
  "study.keep": ({ planCaseId, asked }, { ledger, environment }) => {
    const store = ledger.store();
    const view = viewOf(store, planCaseId);
    const run = latest.get(view);
    if (run === undefined || run.base.inputHash !== baseOf(store, planCaseId, asked).inputHash)
      throw new PlanningError(
        "refused",
        "This study has not been run on the plan as it is now: run it, then keep it.",
        "asked",
      );
    const answer = wholeOf(run.answers);
    if (answer === null)
      throw new PlanningError("refused", "The study was stopped before its last point: go on, then keep it.", "asked");
    return store.keepStudy({
      keptAt: environment.now(),
      author: environment.author(),
      name: nameOf(answer),
      program: product.version,
      planHash: riskBaseOf(store, planCaseId).inputHash,
      answer,
    });
  },
  "study.take": async ({ folder }, context) => {
    const { takenStudy } = await import("../../study/take-study.ts");
    const { answer, planHash } = takenStudy(folder);
    const { environment } = context;
    const store = context.ledger.store();
    if (riskHashNow(store, answer.planCaseId) !== planHash)
      throw new PlanningError(
        "refused",
        `The study in ${folder} was planned from another state of this ledger, or from another ledger: the plan case ${answer.planCase}, its records and readings are not those that it was computed from. Nothing was kept; plan the study anew.`,
        "folder",
      );
    return store.keepStudy({
      keptAt: environment.now(),
      author: environment.author(),
      name: answer.asked.name,
      program: product.version,
      planHash,
      answer,
    });
  },
  "study.list": (_input, { ledger }) => listedStudies(ledger.store()),
  "study.kept": ({ number }, { ledger }) => ledger.store().study(number).answer,
  "study.delete": ({ number }, { ledger }) => {
    ledger.store().deleteStudy(number);
    return { number };
  },
  "study.edges": async ({ planCaseId, ...asked }, context) =>
    await ask(context, "study.edges", viewOf(context.ledger.store(), planCaseId).plan, asked),
  "study.open": async ({ planCaseId, asked, values, newId, name }, context) => {
    // Loaded before the ledger is read: nothing comes between reading and writing.
    const { pointCase } = await import("../../../app/study/point-case.ts");
    const store = context.ledger.store();
    const copy = { fromId: planCaseId, newId, name };
    const changes = pointCase(store.entities(), baseOf(store, planCaseId, asked), values, copy, (kind) =>
      context.environment.newId(kind.toLowerCase()),
    );
    return commitStep(context, planStep(context, `New plan case ${name}`, { changes }));
  },
};
