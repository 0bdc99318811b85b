/** Gauge readings in the file. The entry that a reading names is followed through undo and redo. */
import { PlanningError } from "../app/ground/failure.ts";
import type { Reading } from "../app/ledger/journal.ts";
import type { Connection } from "./connection.ts";
import { firstWriting } from "./journal-writing.ts";

interface ReadingRow {
  readonly id: string;
  readonly tank_id: string;
  readonly at: number;
  readonly mass_kg: number;
  readonly sigma_kg: number;
  readonly entry_id: string | null;
  readonly is_withdrawn: number;
  readonly note: string;
}

const readingOf = (row: ReadingRow): Reading => ({
  id: row.id,
  tankId: row.tank_id,
  at: row.at,
  massKg: row.mass_kg,
  sigmaKg: row.sigma_kg,
  entryId: row.entry_id,
  isWithdrawn: row.is_withdrawn === 1,
  note: row.note,
});

const SELECT = `SELECT r.id, r.tank_id, r.at, r.mass_kg, r.sigma_kg, r.is_withdrawn, r.note, CASE
    WHEN r.entry_id IS NULL OR r.is_withdrawn = 1 THEN r.entry_id
    ELSE coalesce(
      (SELECT f.id FROM entry f WHERE f.id = r.entry_id AND f.state = 'in force'),
      (SELECT e.id FROM entry f JOIN entry e ON e.rewrites_no = f.no WHERE f.id = r.entry_id AND e.state = 'in force'))
    END AS entry_id
  FROM reading r`;

/** All readings in order of time, with the entry in force that stands for each: as first written, or written again by a redo; null: none stands, or it was taken back. */
export const readReadings = (db: Connection): readonly Reading[] =>
  Array.from(db.prepared(`${SELECT} ORDER BY r.at, r.id`).iterate() as IterableIterator<ReadingRow>, readingOf);

/** One reading as it lies in the file (its entry as first written); null: none. */
export const readReadingRow = (db: Connection, id: string): Reading | null => {
  const row = db.prepared("SELECT * FROM reading WHERE id = ?").get(id) as ReadingRow | undefined;
  return row === undefined ? null : readingOf(row);
};

/** All readings as they lie in the file. */
export const readReadingRows = (db: Connection): readonly Reading[] =>
  (db.prepared("SELECT * FROM reading ORDER BY id").all() as ReadingRow[]).map(readingOf);

const INSERT = `INSERT INTO reading (id, tank_id, at, mass_kg, sigma_kg, entry_id, is_withdrawn, note)
  VALUES (?, ?, ?, ?, ?, ?, ?, ?)`;
const UPSERT = `${INSERT} ON CONFLICT (id) DO UPDATE SET tank_id = excluded.tank_id, at = excluded.at, mass_kg = excluded.mass_kg,
  sigma_kg = excluded.sigma_kg, entry_id = excluded.entry_id, is_withdrawn = excluded.is_withdrawn, note = excluded.note`;

/** `isNew`: there is none of this id; a hundred thousand are then written in two thirds of the time. */
export const putReadingRow = (db: Connection, reading: Reading, isNew: boolean): void => {
  db.prepared(isNew ? INSERT : UPSERT).run(
    reading.id,
    reading.tankId,
    reading.at,
    reading.massKg,
    reading.sigmaKg,
    reading.entryId,
    Number(reading.isWithdrawn),
    reading.note,
  );
};

export const removeReadingRow = (db: Connection, id: string): void => {
  db.prepared("DELETE FROM reading WHERE id = ?").run(id);
};

const idOfEntry = (db: Connection, no: number): string =>
  db.prepared("SELECT id FROM entry WHERE no = ?").pluck().get(no) as string;

/** The reading with this entry as its booking, named as first written. Throws "not found" for the entry. */
export const linkedTo = (db: Connection, reading: Reading, entryId: string): Reading => ({
  ...reading,
  entryId: idOfEntry(db, firstWriting(db, entryId)),
});

/**
 * A new reading as it is to lie in the file. `tankIds`: of all tanks there are. Throws "refused" if its id is taken, "not
 * found" if tank or entry are not there.
 */
export const newReadingRow = (db: Connection, reading: Reading, tankIds: ReadonlySet<string>): Reading => {
  if (db.prepared("SELECT 1 FROM reading WHERE id = ?").get(reading.id) !== undefined)
    throw new PlanningError("refused", `There is a reading ${reading.id} already.`, "id");
  if (!tankIds.has(reading.tankId))
    throw new PlanningError("not found", `There is no tank ${reading.tankId}.`, "tankId");
  return reading.entryId === null ? reading : { ...reading, entryId: idOfEntry(db, firstWriting(db, reading.entryId)) };
};
