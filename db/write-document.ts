/** Fills an empty ledger from a document: the plan, the journal with its counter-entries, the readings, the issues of reports. */
import type { LedgerDocument } from "../app/ledger/ledger-view.ts";
import { checkDocument } from "../app/exchange/check-document.ts";
import { type EntityKind, entityKinds } from "../app/entity/entities.ts";
import { canonicalRow } from "./canonical.ts";
import type { Connection } from "./connection.ts";
import { writeEntry } from "./journal-writing.ts";
import { refuseOverdraft } from "./overdraft.ts";
import { newReadingRow, putReadingRow } from "./readings.ts";
import { writeIssue } from "./report-issues.ts";
import { digestRowsAnew } from "./row-digest.ts";
import { putRow } from "./rows.ts";

/** Writes the document in one transaction. Its edit history starts empty. Throws "refused" if it breaks a rule. */
export const writeDocument = (db: Connection, document: LedgerDocument): void => {
  checkDocument(document);
  const tankNames = new Map(document.entities.tank.map((tank) => [tank.id, tank.name]));
  db.write(() => {
    db.prepared("INSERT INTO ledger (id, programme, is_demonstration, as_of_at, revision) VALUES (1, ?, ?, ?, 0)").run(
      document.programme,
      Number(document.isDemonstration),
      document.asOfAt,
    );
    for (const kind of entityKinds)
      for (const [index, row] of document.entities[kind].entries())
        putRow<EntityKind>(db, kind, canonicalRow<EntityKind>(kind, row, `entities.${kind}.${index}`));
    for (const entry of document.entries) writeEntry(db, entry);
    refuseOverdraft(db, document.entries, (id) => tankNames.get(id) ?? id);
    const tankIds = new Set(document.entities.tank.map(({ id }) => id));
    for (const reading of document.readings) putReadingRow(db, newReadingRow(db, reading, tankIds), true);
    for (const issue of document.reportIssues) writeIssue(db, issue);
    digestRowsAnew(db);
  });
};
