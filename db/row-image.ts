/** Images of rows before and after a change: how an edit is kept so that it can be undone and redone. */
import type { Entity, EntityKind } from "../app/entity/entities.ts";
import type { Reading } from "../app/ledger/journal.ts";
import type { Connection } from "./connection.ts";
import type { RowsExchange } from "./row-digest.ts";
import { putReadingRow, readReadingRow, removeReadingRow } from "./readings.ts";
import { putRow, readRow, removeRow } from "./rows.ts";

/** The plan's kinds, gauge readings, and the ledger's own settings. */
export type ImageKind = EntityKind | "reading" | "ledger";

/** Settings that an edit may change. */
export interface LedgerSettings {
  readonly id: "ledger";
  readonly asOfAt: number | null;
}

export type Image = Entity<EntityKind> | Reading | LedgerSettings;

/** The row as it is now; null: there is none. */
export const readImage = (db: Connection, kind: ImageKind, id: string): Image | null => {
  if (kind === "reading") return readReadingRow(db, id);
  if (kind !== "ledger") return readRow(db, kind, id);
  const asOfAt = db.prepared("SELECT as_of_at FROM ledger").pluck().get() as number | null;
  return { id: "ledger", asOfAt };
};

/**
 * Makes the row what the image says, in the file and in the digest; null removes it. `isNew`: it is known that there is
 * no such row yet.
 */
export const writeImage = (
  db: Connection,
  digest: RowsExchange,
  kind: ImageKind,
  id: string,
  image: Image | null,
  isNew = false,
): void => {
  const before = isNew ? null : readImage(db, kind, id);
  putImage(db, kind, id, image, isNew);
  digest.row(kind, before, image === null ? null : readImage(db, kind, id));
};

const putImage = (db: Connection, kind: ImageKind, id: string, image: Image | null, isNew: boolean): void => {
  if (kind === "ledger") {
    db.prepared("UPDATE ledger SET as_of_at = ?").run((image as LedgerSettings).asOfAt);
    return;
  }
  if (kind === "reading") {
    if (image === null) removeReadingRow(db, id);
    else putReadingRow(db, image as Reading, isNew);
    return;
  }
  if (image === null) removeRow(db, kind, id);
  else putRow(db, kind, image as Entity<typeof kind>);
};

/** The text of an image: one text for one content. */
export const imageText = (image: Image | null): string | null => (image === null ? null : JSON.stringify(image));
