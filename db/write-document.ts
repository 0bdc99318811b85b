/** Fills an empty ledger from a document: the plan, the journal with its counter-entries, the readings. */
import type { LedgerDocument } from "../app/contract/ledger-view.ts";
import { applyChanges, emptyEntitySet } from "../app/ledger/apply-changes.ts";
import { type Change, entityKinds } from "../app/ledger/entities.ts";
import { findEntity } from "../app/ledger/entity-index.ts";
import { checkEntry } from "../app/ledger/rules/check-entry.ts";
import { checkPlan } from "../app/ledger/rules/check-plan.ts";
import type { Connection } from "./connection.ts";
import { writeEntry } from "./journal-writing.ts";
import { refuseOverdraft } from "./overdraft.ts";
import { newReadingRow, putReadingRow } from "./readings.ts";
import { putRow } from "./rows.ts";

/** Writes the document in one transaction. Its edit history starts empty. Throws "refused" if it breaks a rule. */
export const writeDocument = (db: Connection, document: LedgerDocument): void => {
  const changes = entityKinds.flatMap((kind) =>
    document.entities[kind].map((value) => ({ op: "put", kind, value }) as Change),
  );
  const before = emptyEntitySet();
  const plan = applyChanges(before, changes);
  checkPlan(plan, changes, before);
  document.entries.forEach((entry, i) => checkEntry(plan, entry, `entries.${i}`));
  db.write(() => {
    db.prepared("INSERT INTO ledger VALUES (1, ?, ?, ?, 0)").run(
      document.programme,
      Number(document.isDemonstration),
      document.asOfAt,
    );
    for (const change of changes) if (change.op === "put") putRow(db, change.kind, change.value);
    for (const entry of document.entries) writeEntry(db, entry);
    refuseOverdraft(db, document.entries, (id) => findEntity(plan, "tank", id)?.name ?? id);
    for (const reading of document.readings) putReadingRow(db, newReadingRow(db, reading));
  });
};
