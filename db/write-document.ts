/** Fills an empty ledger from a document: the plan, the journal with its counter-entries, the readings. */
import type { LedgerDocument } from "../app/contract/ledger-view.ts";
import { applyChanges, emptyEntitySet } from "../app/ledger/apply-changes.ts";
import { type Change, entityKinds } from "../app/ledger/entities.ts";
import { checkPlan } from "../app/ledger/rules/check-plan.ts";
import type { Connection } from "./connection.ts";
import { writeEntry } from "./journal-writing.ts";
import { newReadingRow, putReadingRow } from "./readings.ts";
import { putRow } from "./rows.ts";

/** Writes the document in one transaction. Its edit history starts empty. Throws "refused" if it breaks a rule. */
export const writeDocument = (db: Connection, document: LedgerDocument): void => {
  const changes = entityKinds.flatMap((kind) =>
    document.entities[kind].map((value) => ({ op: "put", kind, value }) as Change),
  );
  const before = emptyEntitySet();
  checkPlan(applyChanges(before, changes), changes, before);
  db.write(() => {
    db.prepared("INSERT INTO ledger VALUES (1, ?, ?, ?, 0)").run(
      document.programme,
      Number(document.isDemonstration),
      document.asOfAt,
    );
    for (const change of changes) if (change.op === "put") putRow(db, change.kind, change.value);
    for (const entry of document.entries) writeEntry(db, entry);
    for (const reading of document.readings) putReadingRow(db, newReadingRow(db, reading));
  });
};
