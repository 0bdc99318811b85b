/** Writes journal entries: new ones, counter-entries that take one back, and, for redo, one written again. */
import { PlanningError } from "../app/ground/failure.ts";
import type { AccountRef, JournalEntry } from "../app/ledger/journal.ts";
import type { Connection } from "./connection.ts";
import { chainEntry } from "./digest-chain.ts";

/** Who writes, and when. */
export interface Hand {
  readonly author: string;
  readonly recordedAt: number;
}

const accountNo = (db: Connection, account: AccountRef, propellantId: string): number => {
  const known = db
    .prepared("SELECT no FROM account WHERE kind = ? AND owner_id = ? AND propellant_id = ?")
    .pluck()
    .get(account.kind, account.ownerId, propellantId) as number | undefined;
  if (known !== undefined) return known;
  const made = db
    .prepared("INSERT INTO account (kind, owner_id, propellant_id) VALUES (?, ?, ?)")
    .run(account.kind, account.ownerId, propellantId);
  return Number(made.lastInsertRowid);
};

const INSERT_ENTRY = `INSERT INTO entry
  (no, id, at, kind, subject_key, reverses_no, rewrites_no, note, author, recorded_at, since_at, state, unsealed_no)
  VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, 'open', ?)`;
const NEXT_NO = "SELECT coalesce(max(no), 0) + 1 FROM entry";
const INSERT_POSTING =
  "INSERT INTO posting (entry_no, line, account_no, grams, at, is_stating) VALUES (?, ?, ?, ?, ?, ?)";
const SEAL = "UPDATE entry SET state = ?, unsealed_no = NULL WHERE no = ?";

const STATING: ReadonlySet<string> = new Set(["opening", "reading", "closing"]);

const entryNo = (db: Connection, id: string): number => {
  const no = db.prepared("SELECT no FROM entry WHERE id = ?").pluck().get(id) as number | undefined;
  if (no === undefined) throw new PlanningError("not found", `There is no journal entry ${id}.`);
  return no;
};

const put = (db: Connection, entry: JournalEntry, rewritesNo: number | null): number => {
  const no = db.prepared(NEXT_NO).pluck().get() as number;
  const reversesNo = entry.reversesId === null ? null : entryNo(db, entry.reversesId);
  db.prepared(INSERT_ENTRY).run(
    no,
    entry.id,
    entry.at,
    entry.kind,
    entry.subjectKey,
    reversesNo,
    rewritesNo,
    entry.note,
    entry.author,
    entry.recordedAt,
    entry.sinceAt ?? null,
    no,
  );
  const isStating = Number(STATING.has(entry.kind));
  entry.postings.forEach((posting, line) => {
    const account = accountNo(db, posting.account, posting.propellantId);
    db.prepared(INSERT_POSTING).run(no, line, account, posting.grams, entry.at, isStating);
  });
  db.prepared(SEAL).run(reversesNo === null ? "in force" : "counter", no);
  chainEntry(db, no);
  return no;
};

const refuseUnbalanced = (entry: JournalEntry): void => {
  const sums = new Map<string, number>();
  for (const p of entry.postings) sums.set(p.propellantId, (sums.get(p.propellantId) ?? 0) + p.grams);
  for (const [propellantId, grams] of sums)
    if (grams !== 0)
      throw new PlanningError(
        "refused",
        `The entry does not balance: ${propellantId} sums to ${grams} g instead of 0.`,
        "postings",
      );
};

/** Writes an entry. Throws "refused" if it does not balance or its id is taken. Answers with its number in the file. */
export const writeEntry = (db: Connection, entry: JournalEntry): number => {
  refuseUnbalanced(entry);
  if (db.prepared("SELECT 1 FROM entry WHERE id = ?").get(entry.id) !== undefined)
    throw new PlanningError("refused", `There is a journal entry ${entry.id} already.`, "id");
  return put(db, entry, null);
};

interface EntryRow {
  readonly no: number;
  readonly id: string;
  readonly at: number;
  readonly kind: JournalEntry["kind"];
  readonly subject_key: string | null;
  readonly note: string;
  readonly since_at: number | null;
  readonly rewrites_no: number | null;
}

const sinceOf = (row: EntryRow): Pick<JournalEntry, "sinceAt"> =>
  row.since_at === null ? {} : { sinceAt: row.since_at };

const postingsOf = (db: Connection, no: number): JournalEntry["postings"] =>
  (
    db
      .prepared(
        `SELECT a.kind, a.owner_id, a.propellant_id, p.grams FROM posting p JOIN account a ON a.no = p.account_no
         WHERE p.entry_no = ? ORDER BY p.line`,
      )
      .raw()
      .all(no) as [AccountRef["kind"], string, string, number][]
  ).map(([kind, ownerId, propellantId, grams]) => ({ account: { kind, ownerId }, propellantId, grams }));

/** What stands in force of the entry first written under `firstNo`: itself or its last rewriting; null: taken back. */
const inForce = (db: Connection, firstNo: number): EntryRow | null => {
  const row = db
    .prepared("SELECT * FROM entry WHERE (no = ? OR rewrites_no = ?) AND state = 'in force'")
    .get(firstNo, firstNo) as EntryRow | undefined;
  return row ?? null;
};

/** The number of the first writing of the entry with this id. Throws "not found". */
export const firstWriting = (db: Connection, id: string): number => {
  const no = entryNo(db, id);
  const rewrites = db.prepared("SELECT rewrites_no FROM entry WHERE no = ?").pluck().get(no) as number | null;
  return rewrites ?? no;
};

/** Takes back what is in force of an entry, by a counter-entry at its instant. Throws "refused" if it is taken back already. */
export const takeBack = (db: Connection, firstNo: number, hand: Hand, note: string): void => {
  const row = inForce(db, firstNo);
  if (row === null) throw new PlanningError("refused", "This entry has been reversed already.");
  const postings = postingsOf(db, row.no).map((p) => ({ ...p, grams: -p.grams || 0 }));
  const id = freeId(db, "rev", row.no);
  const { at, subject_key: subjectKey, id: reversesId } = row;
  put(db, { ...hand, ...sinceOf(row), id, at, kind: "reversal", subjectKey, reversesId, note, postings }, null);
};

/** Writes an entry again that was taken back. Throws "refused" if it is in force. */
export const writeAgain = (db: Connection, firstNo: number, hand: Hand): void => {
  if (inForce(db, firstNo) !== null) throw new PlanningError("refused", "This entry is in the books already.");
  const first = db.prepared("SELECT * FROM entry WHERE no = ?").get(firstNo) as EntryRow;
  const { at, kind, subject_key: subjectKey, note } = first;
  const postings = postingsOf(db, firstNo);
  const id = freeId(db, "redo", firstNo);
  put(db, { ...hand, ...sinceOf(first), id, at, kind, subjectKey, reversesId: null, note, postings }, firstNo);
};

/** An id for an entry that the file writes of itself: it says which entry it belongs to. */
const freeId = (db: Connection, prefix: string, no: number): string => {
  const next = db.prepared(NEXT_NO).pluck().get() as number;
  for (let n = next; ; n += 1) {
    const id = `${prefix}-${no}-${n}`;
    if (db.prepared("SELECT 1 FROM entry WHERE id = ?").get(id) === undefined) return id;
  }
};
