/** Column mappings that are remembered for tables with the same headings. They are no part of the plan: no undo step, no revision. */
import { z } from "zod";
import { columnMapping, type RememberedMapping, rowKinds } from "../app/ledger/column-mapping.ts";
import type { Connection } from "./connection.ts";

/** So many are kept. */
const MAX_KEPT = 200;

const row = z.object({ kind: z.enum(rowKinds), headings: z.array(z.string()), mapping: columnMapping });

/** The latest used first. A row that this program cannot read any more is passed over: the columns are then asked anew. */
export const readColumnMappings = (db: Connection): readonly RememberedMapping[] => {
  const rows = db.prepared("SELECT kind, headings, mapping FROM column_mapping ORDER BY used_at DESC").all() as {
    readonly kind: string;
    readonly headings: string;
    readonly mapping: string;
  }[];
  return rows.flatMap(({ kind, headings, mapping }) => {
    const read = row.safeParse({ kind, headings: JSON.parse(headings), mapping: JSON.parse(mapping) });
    return read.success ? [read.data] : [];
  });
};

export const keepColumnMapping = (db: Connection, { kind, headings, mapping }: RememberedMapping, at: number): void => {
  db.write(() => {
    db.prepared(
      `INSERT INTO column_mapping (kind, headings, mapping, used_at) VALUES (?, ?, ?, ?)
       ON CONFLICT (kind, headings) DO UPDATE SET mapping = excluded.mapping, used_at = excluded.used_at`,
    ).run(kind, JSON.stringify(headings), JSON.stringify(mapping), at);
    db.prepared(
      `DELETE FROM column_mapping WHERE (kind, headings) NOT IN
       (SELECT kind, headings FROM column_mapping ORDER BY used_at DESC LIMIT ${MAX_KEPT})`,
    ).run();
  });
};
