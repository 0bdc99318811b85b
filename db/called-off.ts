/** What the edit history remembers of a plan case's deleted flights and sorties, and by what a ledger is known apart from others. */
import { createHash } from "node:crypto";
import type { CalledOff } from "../app/ledger/called-off.ts";
import type { Entity } from "../app/entity/entities.ts";
import type { Connection } from "./connection.ts";

/**
 * Rows as they were removed, and rows that were added, stood in an issue of a report and were undone after it; the latest
 * word of each first.
 */
const GONE = `SELECT c.kind, CASE WHEN c.after IS NULL THEN c.before ELSE c.after END AS row
  FROM edit_change c JOIN edit_step s ON s.id = c.step_id
  WHERE c.kind IN ('flight', 'sortie') AND (
    (c.after IS NULL AND s.state = 'done')
    OR (c.before IS NULL AND s.state <> 'done' AND s.id <= (SELECT coalesce(max(last_step_id), 0) FROM report_issue)))
  ORDER BY c.step_id DESC, c.line DESC`;

const calledOff = (kind: "flight" | "sortie", row: Entity<"flight"> | Entity<"sortie">): CalledOff => {
  const { key, name } = row;
  return "arriveAt" in row
    ? { kind, key, name, startAt: row.departAt, endAt: row.arriveAt, berthDays: row.berthDays }
    : { kind, key, name, startAt: row.loadAt, endAt: row.returnAt, berthDays: 0 };
};

/** One of a key, those that the plan case has no longer; in order of kind and key. */
export const readCalledOff = (db: Connection, planCaseId: string): readonly CalledOff[] => {
  const there = (kind: string): ReadonlySet<string> =>
    new Set(db.prepared(`SELECT key FROM ${kind} WHERE plan_case_id = ?`).pluck().all(planCaseId) as string[]);
  const present = { flight: there("flight"), sortie: there("sortie") };
  const gone = new Map<string, CalledOff>();
  for (const { kind, row } of db.prepared(GONE).all() as { kind: "flight" | "sortie"; row: string }[]) {
    const image = JSON.parse(row) as Entity<"flight"> | Entity<"sortie">;
    const place = `${kind} ${image.key}`;
    if (image.planCaseId === planCaseId && !present[kind].has(image.key) && !gone.has(place))
      gone.set(place, calledOff(kind, image));
  }
  return [...gone].toSorted(([a], [b]) => (a < b ? -1 : 1)).map(([, each]) => each);
};

const IDENTITY_DIGITS = 12;

/**
 * By what this ledger and every copy of it are known, twelve hexadecimal digits: of its first journal entry, which is
 * written once and never changed; null: the books have none yet.
 */
export const readIdentity = (db: Connection): string | null => {
  const first = db.prepared("SELECT id, at, author, recorded_at FROM entry ORDER BY no LIMIT 1").raw().get();
  return first === undefined
    ? null
    : createHash("sha256").update(JSON.stringify(first)).digest("hex").slice(0, IDENTITY_DIGITS);
};
