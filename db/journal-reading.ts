/** Reads the journal: one entry, all of them, a page by filter with its sums. */
import type { Input } from "../app/contract/contract.ts";
import { PlanningError } from "../app/ground/failure.ts";
import type { JournalPage, JournalSum } from "../app/ledger/ledger-view.ts";
import type { AccountKind, EntryKind, JournalEntry, Posting } from "../app/ledger/journal.ts";
import type { LaterRecord } from "../app/ledger/books.ts";
import type { Connection } from "./connection.ts";
import { MEASURES } from "./levels.ts";

export type JournalFilter = Input<"journal.page">;

interface EntryRow {
  readonly no: number;
  readonly id: string;
  readonly at: number;
  readonly kind: EntryKind;
  readonly subject_key: string | null;
  readonly reverses_id: string | null;
  readonly note: string;
  readonly author: string;
  readonly recorded_at: number;
  readonly since_at: number | null;
}

const SELECT_ENTRY = `SELECT e.no, e.id, e.at, e.kind, e.subject_key, r.id AS reverses_id, e.note, e.author, e.recorded_at, e.since_at
  FROM entry e LEFT JOIN entry r ON r.no = e.reverses_no`;
const SELECT_POSTINGS = `SELECT a.kind, a.owner_id, a.propellant_id, p.grams
  FROM posting p JOIN account a ON a.no = p.account_no WHERE p.entry_no = ? ORDER BY p.line`;

const postingsOf = (db: Connection, no: number): Posting[] =>
  (db.prepared(SELECT_POSTINGS).raw().all(no) as [AccountKind, string, string, number][]).map(
    ([kind, ownerId, propellantId, grams]) => ({ account: { kind, ownerId }, propellantId, grams }),
  );

const entryOf = (db: Connection, row: EntryRow): JournalEntry => ({
  id: row.id,
  at: row.at,
  ...(row.since_at === null ? {} : { sinceAt: row.since_at }),
  kind: row.kind,
  subjectKey: row.subject_key,
  reversesId: row.reverses_id,
  note: row.note,
  author: row.author,
  recordedAt: row.recorded_at,
  postings: postingsOf(db, row.no),
});

/** Throws "not found". */
export const readEntry = (db: Connection, id: string): JournalEntry => {
  const row = db.prepared(`${SELECT_ENTRY} WHERE e.id = ?`).get(id) as EntryRow | undefined;
  if (row === undefined) throw new PlanningError("not found", `There is no journal entry ${id}.`);
  return entryOf(db, row);
};

/** Every entry in the order of writing. */
export const readEntries = (db: Connection): readonly JournalEntry[] =>
  (db.prepared(`${SELECT_ENTRY} ORDER BY e.no`).all() as EntryRow[]).map((row) => entryOf(db, row));

/** Instants that are read whole: the opening may stand at the first, and what is just being taken back is left out. */
const NEXT_INSTANTS = 2;

/** Of closings only those that measured the tank: boil-off booked from the model states nothing. */
export const NEXT_STATING = `SELECT e.id, p.at FROM account a
  JOIN posting p ON p.account_no = a.no AND p.is_stating = 1 AND p.at > @afterAt
  JOIN entry e ON e.no = p.entry_no AND e.state = 'in force'
  WHERE a.kind = 'tank' AND a.owner_id = @tankId AND ${MEASURES} ORDER BY p.at, p.entry_no`;

/** A lander leaves with all that its tanks hold: they are empty then. */
export const NEXT_EMPTYING = `SELECT e.id, p.at FROM account a
  JOIN tank t ON t.id = a.owner_id AND t.owner_kind = 'craft'
  JOIN posting p ON p.account_no = a.no AND p.at > @afterAt
  JOIN entry e ON e.no = p.entry_no AND e.state = 'in force' AND e.kind = 'loading'
  WHERE a.kind = 'tank' AND a.owner_id = @tankId ORDER BY p.at, p.entry_no`;

interface StatingRow {
  readonly id: string;
  readonly at: number;
}

/**
 * The next entries in force after an instant that state the level of a tank, those `without` left out: all of the first two
 * instants that have any, however many of one minute there are; at one instant in the order in which they were written.
 */
export const readNextStating = (
  db: Connection,
  tankId: string,
  afterAt: number,
  without: ReadonlySet<string>,
): readonly JournalEntry[] =>
  [NEXT_STATING, NEXT_EMPTYING]
    .flatMap((sql) => {
      const ids: string[] = [];
      const instants = new Set<number>();
      for (const { id, at } of db.prepared(sql).iterate({ tankId, afterAt }) as IterableIterator<StatingRow>) {
        if (instants.size === NEXT_INSTANTS && !instants.has(at)) break;
        if (without.has(id)) continue;
        instants.add(at);
        ids.push(id);
      }
      return ids;
    })
    .map((id) => readEntry(db, id))
    .toSorted((a, b) => a.at - b.at);

export const FLOWS_ACROSS = `SELECT e.id FROM entry e
  WHERE e.since_at IS NOT NULL AND e.at > @at AND e.since_at < @at AND e.state = 'in force'
    AND EXISTS (SELECT 1 FROM posting p JOIN account a ON a.no = p.account_no
      WHERE p.entry_no = e.no AND a.kind = 'tank' AND a.owner_id = @tankId) ORDER BY e.at, e.no`;

/** The metered handovers in force that were running into a tank at an instant. */
export const readFlowsAcross = (db: Connection, tankId: string, at: number): readonly JournalEntry[] =>
  (db.prepared(FLOWS_ACROSS).pluck().all({ tankId, at }) as string[]).map((id) => readEntry(db, id));

/** An event of a flight or sortie is one record, whatever entries it wrote; every other entry, and every reading, is its own. */
const RECORDS_AFTER = `SELECT max(at) AS at, kind, subject_key AS subjectKey FROM entry
    WHERE at > @at AND state = 'in force' AND subject_key IS NOT NULL GROUP BY kind, subject_key
  UNION ALL SELECT at, kind, NULL FROM entry WHERE at > @at AND state = 'in force' AND subject_key IS NULL
  UNION ALL SELECT r.at, 'reading', NULL FROM reading r WHERE r.at > @at AND r.is_withdrawn = 0 AND r.entry_id IS NULL`;

/** Records in force after an instant (exclusive), with the readings that were not booked. */
export const readRecordsAfter = (db: Connection, at: number): readonly LaterRecord[] =>
  db.prepared(RECORDS_AFTER).all({ at }) as LaterRecord[];

const escapeLike = (text: string) => text.replaceAll(/[\\%_]/g, (mark) => `\\${mark}`);

/** The conditions of a filter: on the entry, and on the postings that it must have and that are summed. */
const conditionsOf = (filter: JournalFilter) => {
  const onEntry: string[] = [];
  const onPosting: string[] = [];
  const values: Record<string, string | number> = {};
  const add = (list: string[], sql: string, name: string, value: string | number | null) => {
    if (value === null || value === "") return;
    list.push(sql);
    values[name] = value;
  };
  add(onEntry, "e.at >= @fromAt", "fromAt", filter.fromAt);
  add(onEntry, "e.at <= @untilAt", "untilAt", filter.untilAt);
  add(onEntry, "e.subject_key = @subjectKey", "subjectKey", filter.subjectKey);
  const textSql = String.raw`(e.note LIKE @text ESCAPE '\' OR e.kind LIKE @text ESCAPE '\' OR e.author LIKE @text ESCAPE '\' OR e.subject_key LIKE @text ESCAPE '\')`;
  add(onEntry, textSql, "text", filter.text === "" ? "" : `%${escapeLike(filter.text)}%`);
  add(onPosting, "a.kind = @accountKind", "accountKind", filter.accountKind);
  add(onPosting, "a.owner_id = @ownerId", "ownerId", filter.ownerId);
  add(onPosting, "a.propellant_id = @propellantId", "propellantId", filter.propellantId);
  return { onEntry, onPosting, values };
};

const where = (conditions: readonly string[]) => (conditions.length === 0 ? "" : `WHERE ${conditions.join(" AND ")}`);

const SUM_COLUMNS = "a.kind AS kind, a.owner_id AS ownerId, a.propellant_id AS propellantId";

/** Entries by filter, newest first; the sums are over all postings that the filter lets through. */
export const readPage = (db: Connection, filter: JournalFilter): JournalPage => {
  const { onEntry, onPosting, values } = conditionsOf(filter);
  const hasPosting = `EXISTS (SELECT 1 FROM posting p JOIN account a ON a.no = p.account_no
    WHERE p.entry_no = e.no AND ${onPosting.join(" AND ")})`;
  const entryWhere = where(onPosting.length === 0 ? onEntry : [...onEntry, hasPosting]);
  const total = db.prepared(`SELECT count(*) FROM entry e ${entryWhere}`).pluck().get(values) as number;
  const rows = db
    .prepared(`${SELECT_ENTRY} ${entryWhere} ORDER BY e.at DESC, e.no DESC LIMIT @limit OFFSET @offset`)
    .all({ ...values, limit: filter.limit, offset: filter.offset }) as EntryRow[];
  // Without a condition on the entry, the accounts' kept balances are the sums.
  const sumSql =
    onEntry.length === 0
      ? `SELECT ${SUM_COLUMNS}, a.balance_grams AS grams FROM account a ${where(onPosting)} ORDER BY 1, 2, 3`
      : `SELECT ${SUM_COLUMNS}, sum(p.grams) AS grams
         FROM entry e JOIN posting p ON p.entry_no = e.no JOIN account a ON a.no = p.account_no
         ${where([...onEntry, ...onPosting])} GROUP BY a.no ORDER BY 1, 2, 3`;
  const sums = db.prepared(sumSql).all(values) as {
    kind: AccountKind;
    ownerId: string;
    propellantId: string;
    grams: number;
  }[];
  return {
    total,
    entries: rows.map((row) => entryOf(db, row)),
    sums: sums.map(({ kind, ownerId, propellantId, grams }): JournalSum => ({
      account: { kind, ownerId },
      propellantId,
      grams,
    })),
  };
};
