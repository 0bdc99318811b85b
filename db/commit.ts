/** Writes one step of editing whole or not at all: plan rows, entries, readings, settings, and the step itself. */
import { PlanningError } from "../app/ground/failure.ts";
import { applyChanges, settleChanges } from "../app/entity/apply-changes.ts";
import { type Change, type EntityKind, type EntitySet } from "../app/entity/entities.ts";
import { findEntity } from "../app/entity/entity-index.ts";
import { type JournalEntry, type Reading, journalEntry, reading as readingSchema } from "../app/ledger/journal.ts";
import { checkEntry } from "../app/ledger/rules/check-entry.ts";
import { checkPlan } from "../app/ledger/rules/check-plan.ts";
import type { Step } from "../app/ledger/books.ts";
import { canonicalRow, parsedAt } from "./canonical.ts";
import type { Connection } from "./connection.ts";
import { type EntryEffect, type RowChange, keepStep } from "./edit-history.ts";
import { readEntry } from "./journal-reading.ts";
import { firstWriting, takeBack, writeEntry } from "./journal-writing.ts";
import { refuseOverdraft } from "./overdraft.ts";
import { linkedTo, newReadingRow, readReadingRow } from "./readings.ts";
import { exchangeRows } from "./row-digest.ts";
import { type Image, imageText, readImage, writeImage } from "./row-image.ts";

const canonical = (change: Change, index: number): Change =>
  change.op === "remove"
    ? change
    : ({
        op: "put",
        kind: change.kind,
        value: canonicalRow<EntityKind>(change.kind, change.value, `changes.${index}.value`),
      } as Change);

const rowChange = (before: EntitySet, change: Change): RowChange => {
  const id = change.op === "put" ? change.value.id : change.id;
  const kind: EntityKind = change.kind;
  return { kind, id, before: findEntity(before, kind, id), after: change.op === "put" ? change.value : null };
};

const isEffective = ({ before, after }: RowChange) =>
  before === null || after === null ? before !== after : imageText(before) !== imageText(after);

const readingChanges = (db: Connection, step: Step, tankIds: ReadonlySet<string>): RowChange[] => [
  ...step.readings.map((value, i) => {
    const reading: Reading = parsedAt(readingSchema, value, `readings.${i}`);
    return { kind: "reading" as const, id: reading.id, before: null, after: newReadingRow(db, reading, tankIds) };
  }),
  ...step.withdrawnReadingIds.map((id) => {
    const before = readReadingRow(db, id);
    if (before === null) throw new PlanningError("not found", `There is no reading ${id}.`, "readingId");
    if (before.isWithdrawn) throw new PlanningError("refused", "This reading was withdrawn already.", "readingId");
    return { kind: "reading" as const, id, before, after: { ...before, isWithdrawn: true } };
  }),
  ...(step.relinkedReadings ?? []).map(({ readingId, entryId }) => {
    const before = readReadingRow(db, readingId);
    if (before === null) throw new PlanningError("not found", `There is no reading ${readingId}.`, "readingId");
    return { kind: "reading" as const, id: readingId, before, after: linkedTo(db, before, entryId) };
  }),
];

const settingChanges = (db: Connection, step: Step): RowChange[] => {
  if (step.asOfAt === undefined) return [];
  const after: Image = { id: "ledger", asOfAt: step.asOfAt };
  return [{ kind: "ledger", id: "ledger", before: readImage(db, "ledger", "ledger"), after }];
};

const writeEntries = (db: Connection, step: Step, plan: EntitySet): EntryEffect[] => [
  ...step.reversedEntryIds.map((id): EntryEffect => {
    const entryNo = firstWriting(db, id);
    takeBack(db, entryNo, step, step.reason === "" ? step.label : step.reason);
    return { entryNo, effect: "taken back" };
  }),
  ...step.entries.map((value, i): EntryEffect => {
    const entry: JournalEntry = parsedAt(journalEntry, value, `entries.${i}`);
    if (entry.kind === "reversal")
      throw new PlanningError("refused", "A reversal is made by reversing an entry.", `entries.${i}.kind`);
    checkEntry(plan, entry, `entries.${i}`);
    return { entryNo: writeEntry(db, entry), effect: "written" };
  }),
];

const refuseReadTank = (db: Connection, changes: readonly Change[], before: EntitySet): void => {
  for (const change of changes) {
    if (change.op !== "remove" || change.kind !== "tank") continue;
    if (db.prepared("SELECT 1 FROM reading WHERE tank_id = ? LIMIT 1").get(change.id) === undefined) continue;
    const name = findEntity(before, "tank", change.id)?.name ?? change.id;
    throw new PlanningError("refused", `${name} cannot be removed: there are gauge readings of it.`);
  }
};

/**
 * Writes the step and answers with the plan after it; the plan before it unchanged if the step changes nothing (then
 * nothing is kept either). `mayOverdraw`: of a rehearsal, that a tank may hold less than nothing in the midst of it.
 */
export const commitStep = (db: Connection, before: EntitySet, step: Step, mayOverdraw = false): EntitySet => {
  const changes = settleChanges(step.changes.map(canonical));
  const after = applyChanges(before, changes);
  checkPlan(after, changes, before);
  refuseReadTank(db, changes, before);
  return db.write(() => {
    const rows = changes.map((change) => rowChange(before, change)).filter(isEffective);
    const digest = exchangeRows(db);
    for (const { kind, id, after: image } of rows) writeImage(db, digest, kind, id, image);
    const takenBack = step.reversedEntryIds.map((id) => readEntry(db, id));
    const effects = writeEntries(db, step, after);
    if (!mayOverdraw)
      refuseOverdraft(db, [...takenBack, ...step.entries], (id) => findEntity(after, "tank", id)?.name ?? id);
    const tankIds = new Set(after.tank.map(({ id }) => id));
    const others = [...readingChanges(db, step, tankIds), ...settingChanges(db, step)].filter(isEffective);
    for (const { kind, id, before: image, after: next } of others)
      writeImage(db, digest, kind, id, next, image === null);
    digest.write();
    if (rows.length + others.length + effects.length === 0) return before;
    keepStep(db, step, [...rows, ...others], effects);
    db.prepared("UPDATE ledger SET revision = revision + 1").run();
    return after;
  });
};
