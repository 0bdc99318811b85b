/**
 * One digest over all rows of the plan, the readings and the settings: the sum, modulo 2^256, of the SHA-256 of each. A
 * row that changes is taken out and put in again, so that an edit pays for its own rows alone.
 */
import { createHash } from "node:crypto";
import { entityKinds } from "../app/entity/entities.ts";
import type { Connection } from "./connection.ts";
import { readReadingRows } from "./readings.ts";
import { readRows } from "./rows.ts";

const MASK = (1n << 256n) - 1n;

const hashOf = (kind: string, row: unknown): bigint =>
  BigInt(`0x${createHash("sha256").update(kind).update(JSON.stringify(row)).digest("hex")}`);

const read = (db: Connection): bigint =>
  BigInt(`0x${(db.prepared("SELECT rows_digest FROM ledger").pluck().get() as Buffer).toString("hex")}`);

const write = (db: Connection, sum: bigint): void => {
  const hex = (sum & MASK).toString(16).padStart(64, "0");
  db.prepared("UPDATE ledger SET rows_digest = ?").run(Buffer.from(hex, "hex"));
};

/** What rows that change take out of the digest and put into it, gathered so that it is written once. */
export interface RowsExchange {
  /** null: there was, or is, none. */
  row(kind: string, before: unknown, after: unknown): void;
  /** Once, in the same transaction. */
  write(): void;
}

export const exchangeRows = (db: Connection): RowsExchange => {
  let sum = 0n;
  return {
    row: (kind, before, after) => {
      if (before !== null) sum -= hashOf(kind, before);
      if (after !== null) sum += hashOf(kind, after);
    },
    write: () => write(db, read(db) + sum),
  };
};

const sumOfAll = (db: Connection): bigint => {
  const asOfAt = db.prepared("SELECT as_of_at FROM ledger").pluck().get() as number | null;
  let sum = hashOf("ledger", { id: "ledger", asOfAt });
  for (const kind of entityKinds) for (const row of readRows(db, kind)) sum += hashOf(kind, row);
  for (const reading of readReadingRows(db)) sum += hashOf("reading", reading);
  return sum & MASK;
};

/** Digests all rows anew: after a document or a new form of the file. */
export const digestRowsAnew = (db: Connection): void => {
  if (db.prepared("SELECT 1 FROM ledger").get() !== undefined) write(db, sumOfAll(db));
};

/** What of the rows is not what was written, in words. */
export const rowFaults = (db: Connection): readonly string[] =>
  sumOfAll(db) === read(db)
    ? []
    : ["A row of the plan, a reading or a setting is not what was written: their digest does not agree."];
