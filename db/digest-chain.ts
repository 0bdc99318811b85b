/**
 * The digest chains over what is never changed: journal entries with their postings, and edit steps with what they
 * changed. Each row's digest is SHA-256 over the digest of the row before and the row's own bytes, so that a single bit
 * that turned on the disk, in a text or an instant that every other check would pass, shows.
 */
import { createHash } from "node:crypto";
import type { Connection } from "./connection.ts";

const NONE = Buffer.alloc(32);

const linked = (before: Buffer | null, text: Iterable<string>): Buffer => {
  const hash = createHash("sha256").update(before ?? NONE);
  for (const part of text) hash.update(part);
  return hash.digest();
};

const ENTRY = `SELECT no, id, at, since_at, kind, subject_key, reverses_no, rewrites_no, note, author, recorded_at FROM entry WHERE no = ?`;
const POSTINGS = `SELECT p.line, a.kind, a.owner_id, a.propellant_id, p.grams, p.at, p.is_stating
  FROM posting p JOIN account a ON a.no = p.account_no WHERE p.entry_no = ? ORDER BY p.line`;
const STEP = "SELECT id, at, author, label, reason FROM edit_step WHERE id = ?";
const CHANGES = "SELECT line, kind, row_id, before, after FROM edit_change WHERE step_id = ? ORDER BY line";
const EFFECTS = "SELECT line, entry_no, effect FROM edit_entry WHERE step_id = ? ORDER BY line";

/** The rows of each statement as one JSON text, an array of arrays, row by row: a step may have a hundred thousand. */
const textOf = function* (db: Connection, statements: readonly string[], key: number): Generator<string> {
  yield "[";
  for (const [index, sql] of statements.entries()) {
    yield index === 0 ? "[" : ",[";
    let isFirst = true;
    for (const row of db.prepared(sql).raw().iterate(key)) {
      yield isFirst ? JSON.stringify(row) : `,${JSON.stringify(row)}`;
      isFirst = false;
    }
    yield "]";
  }
  yield "]";
};

interface Chain {
  /** The statements whose rows a key stands for. */
  readonly rows: readonly string[];
  readonly before: string;
  readonly put: string;
  /** Keys with their digests from a key on, in order. */
  readonly from: string;
  /** The key from which the last n rows begin. */
  readonly tail: string;
  readonly fault: (db: Connection, key: number) => string;
}

const entries: Chain = {
  rows: [ENTRY, POSTINGS],
  before: "SELECT digest FROM entry_digest WHERE entry_no < ? ORDER BY entry_no DESC LIMIT 1",
  put: "INSERT OR REPLACE INTO entry_digest (digest, entry_no) VALUES (?, ?)",
  from: "SELECT e.no, d.digest FROM entry e LEFT JOIN entry_digest d ON d.entry_no = e.no WHERE e.no >= ? ORDER BY e.no",
  tail: "SELECT coalesce(min(no), 0) FROM (SELECT no FROM entry ORDER BY no DESC LIMIT ?)",
  fault: (db, no) => {
    const id = db.prepared("SELECT id FROM entry WHERE no = ?").pluck().get(no) as string | undefined;
    return `Journal entry ${id ?? no} is not what was written: its digest does not agree.`;
  },
};

const steps: Chain = {
  rows: [STEP, CHANGES, EFFECTS],
  before: "SELECT digest FROM edit_step WHERE id < ? ORDER BY id DESC LIMIT 1",
  put: "UPDATE edit_step SET digest = ? WHERE id = ?",
  from: "SELECT id, digest FROM edit_step WHERE id >= ? ORDER BY id",
  tail: "SELECT coalesce(min(id), 0) FROM (SELECT id FROM edit_step ORDER BY id DESC LIMIT ?)",
  fault: (db, id) => {
    const label = db.prepared("SELECT label FROM edit_step WHERE id = ?").pluck().get(id) as string | undefined;
    return `Step ${id} of the edit history (${label ?? ""}) is not what was written: its digest does not agree.`;
  },
};

const digestBefore = (db: Connection, chain: Chain, key: number): Buffer | null =>
  (db.prepared(chain.before).pluck().get(key) as Buffer | null | undefined) ?? null;

const extend = (db: Connection, chain: Chain, key: number): void => {
  db.prepared(chain.put).run(linked(digestBefore(db, chain, key), textOf(db, chain.rows, key)), key);
};

/** Links an entry that was just written, with all its postings. */
export const chainEntry = (db: Connection, no: number): void => extend(db, entries, no);

/** Links a step that was just kept, with its changes and effects. */
export const chainStep = (db: Connection, id: number): void => extend(db, steps, id);

const MAX_FAULTS = 20;

const faultsFrom = (db: Connection, chain: Chain, first: number): string[] => {
  const faults: string[] = [];
  let before = digestBefore(db, chain, first);
  const all = db.prepared(chain.from).raw().all(first) as [number, Buffer | null][];
  for (const [key, digest] of all) {
    if (digest === null || !linked(before, textOf(db, chain.rows, key)).equals(digest))
      faults.push(chain.fault(db, key));
    if (faults.length >= MAX_FAULTS) break;
    before = digest;
  }
  return faults;
};

/** What of the books and the history is not what was written, in words. */
export const chainFaults = (db: Connection): readonly string[] =>
  [entries, steps].flatMap((chain) => faultsFrom(db, chain, 0));

/** The same for the newest `count` entries and steps: what an opening can afford. */
export const newestFaults = (db: Connection, count: number): readonly string[] =>
  [entries, steps].flatMap((chain) => faultsFrom(db, chain, db.prepared(chain.tail).pluck().get(count) as number));

/** Links everything anew, after a step of the form that rewrote rows; within a transaction. */
export const chainAnew = (db: Connection): void => {
  db.prepared("DELETE FROM entry_digest").run();
  db.prepared("UPDATE edit_step SET digest = NULL").run();
  for (const no of db.prepared("SELECT no FROM entry ORDER BY no").pluck().all() as number[]) chainEntry(db, no);
  for (const id of db.prepared("SELECT id FROM edit_step ORDER BY id").pluck().all() as number[]) chainStep(db, id);
};
