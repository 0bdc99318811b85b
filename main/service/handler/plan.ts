/** The plan: viewing, editing, undo and redo, plan cases. */
import type { OperationName } from "../../../app/contract/contract.ts";
import { entriesOf } from "../../../app/ledger/entries-of.ts";
import { copyCase, removeCase } from "../../../app/ledger/case-copy.ts";
import { findEntity } from "../../../app/entity/entity-index.ts";
import { ledgerInfo } from "../../../app/ledger/plan-view.ts";
import { composeSteps } from "../../../app/records/compose-steps.ts";
import { recordEntry } from "../../../app/records/record-entry.ts";
import type { RecordBooks } from "../../../app/records/recorder.ts";
import { refuseStatusByHand } from "../../../app/ledger/rules/recorded-status-rule.ts";
import { withReturnsAlong } from "../../../app/sortie/returns-along.ts";
import type { HandlersOf } from "../context.ts";
import { viewOf } from "../plan-of.ts";
import { commitStep, planStep, recorderOf } from "../step.ts";

export const planHandlers: HandlersOf<Extract<OperationName, `plan.${string}` | `case.${string}`>> = {
  "plan.view": ({ planCaseId, asOfAt }, { ledger }) => viewOf(ledger.store(), planCaseId, asOfAt),
  "plan.edit": ({ label, reason, changes, openings = [] }, context) => {
    const store = context.ledger.store();
    const entities = store.entities();
    refuseStatusByHand(changes, entities, (key) => entriesOf(store, key).entries);
    const step = planStep(context, label, { reason, changes: withReturnsAlong(entities, changes) });
    if (openings.length === 0) return commitStep(context, step);
    const opened = openings.map((entry) => (books: RecordBooks) => recordEntry(books, entry, recorderOf(context)));
    return commitStep(context, composeSteps(store, [() => step, ...opened], label));
  },
  "plan.undo": (_input, { ledger, environment }) => {
    const store = ledger.store();
    store.undo(environment.author(), environment.now());
    return ledgerInfo(store);
  },
  "plan.redo": (_input, { ledger, environment }) => {
    const store = ledger.store();
    store.redo(environment.author(), environment.now());
    return ledgerInfo(store);
  },
  "plan.history": ({ offset, limit }, { ledger }) => ledger.store().history(offset, limit),
  "case.copy": (input, context) => {
    const changes = copyCase(context.ledger.store().entities(), input, (kind) =>
      context.environment.newId(kind.toLowerCase()),
    );
    return commitStep(context, planStep(context, `New plan case ${input.name}`, { changes }));
  },
  "case.remove": ({ planCaseId }, context) => {
    const entities = context.ledger.store().entities();
    const changes = removeCase(entities, planCaseId);
    const name = findEntity(entities, "planCase", planCaseId)?.name ?? planCaseId;
    return commitStep(context, planStep(context, `Delete plan case ${name}`, { changes }));
  },
};
