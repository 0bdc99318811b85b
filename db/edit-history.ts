/** The edit history in the file: what each step changed, and undo and redo of the last, across restarts. */
import { PlanningError } from "../app/ground/failure.ts";
import type { EditRecord, EditStep } from "../app/ledger/ledger-view.ts";
import { chainStep } from "./digest-chain.ts";
import { changeLine } from "../app/ledger/change-line.ts";
import type { Step } from "../app/ledger/books.ts";
import type { Connection } from "./connection.ts";
import { type Hand, takeBack, writeAgain } from "./journal-writing.ts";
import { agrees, differenceOf, WHOLE, withDifference } from "./row-difference.ts";
import { exchangeRows } from "./row-digest.ts";
import { type Image, type ImageKind, readImage, writeImage } from "./row-image.ts";

/** One change of a row, as it will be kept. */
export interface RowChange {
  readonly kind: ImageKind;
  readonly id: string;
  readonly before: Image | null;
  readonly after: Image | null;
}

export interface EntryEffect {
  /** The entry's number at its first writing. */
  readonly entryNo: number;
  readonly effect: "written" | "taken back";
}

/** Keeps a step that was just done; steps that were undone before it can no longer be redone. */
export const keepStep = (
  db: Connection,
  step: Pick<Step, "label" | "reason" | "author" | "recordedAt">,
  changes: readonly RowChange[],
  entries: readonly EntryEffect[],
): void => {
  db.prepared("UPDATE edit_step SET state = 'replaced' WHERE state = 'undone'").run();
  const made = db
    .prepared("INSERT INTO edit_step (at, author, label, reason, state) VALUES (?, ?, ?, ?, 'done')")
    .run(step.recordedAt, step.author, step.label, step.reason);
  changes.forEach(({ kind, id, before, after }, line) => {
    const kept = differenceOf(before, after);
    db.prepared("INSERT INTO edit_change VALUES (?, ?, ?, ?, ?, ?)").run(
      made.lastInsertRowid,
      line,
      kind,
      id,
      kept.before,
      kept.after,
    );
  });
  entries.forEach(({ entryNo, effect }, line) => {
    db.prepared("INSERT INTO edit_entry VALUES (?, ?, ?, ?)").run(made.lastInsertRowid, line, entryNo, effect);
  });
  chainStep(db, Number(made.lastInsertRowid));
};

interface ChangeRow {
  readonly kind: ImageKind;
  readonly row_id: string;
  readonly before: string | null;
  readonly after: string | null;
}

const LAST_DONE = "SELECT id, label FROM edit_step WHERE state = 'done' ORDER BY id DESC LIMIT 1";
const FIRST_UNDONE = "SELECT id, label FROM edit_step WHERE state = 'undone' ORDER BY id LIMIT 1";

const nextStep = (db: Connection, sql: string) => db.prepared(sql).get() as { id: number; label: string } | undefined;

export const undoLabel = (db: Connection): string | null => nextStep(db, LAST_DONE)?.label ?? null;
export const redoLabel = (db: Connection): string | null => nextStep(db, FIRST_UNDONE)?.label ?? null;

const readChanges = (db: Connection, stepId: number) =>
  db
    .prepared("SELECT kind, row_id, before, after FROM edit_change WHERE step_id = ? ORDER BY line")
    .all(stepId) as ChangeRow[];

const readEffects = (db: Connection, stepId: number) =>
  db
    .prepared("SELECT entry_no AS entryNo, effect FROM edit_entry WHERE step_id = ? ORDER BY line")
    .all(stepId) as EntryEffect[];

/** Puts each row from one image to the other. Throws "refused" if a row is no longer as the step left it. */
const turnRows = (db: Connection, changes: readonly ChangeRow[], from: "before" | "after", label: string): void => {
  const digest = exchangeRows(db);
  for (const change of changes) {
    const present = readImage(db, change.kind, change.row_id);
    if (!agrees(present, change[from]))
      throw new PlanningError(
        "refused",
        `“${label}” cannot be ${from === "after" ? "undone" : "redone"}: ${change.kind} ${change.row_id} was changed since by other means.`,
      );
    const next = withDifference(present, change[from === "after" ? "before" : "after"]);
    writeImage(db, digest, change.kind, change.row_id, next);
  }
  digest.write();
};

const markTurned = (db: Connection, stepId: number, state: "done" | "undone", hand: Hand): void => {
  db.prepared("UPDATE edit_step SET state = ?, turned_by = ?, turned_at = ? WHERE id = ?").run(
    state,
    hand.author,
    hand.recordedAt,
    stepId,
  );
};

/** Undoes the last step in force: rows by their images, entries by counter-entries. Throws "refused" when there is none. */
export const undoStep = (db: Connection, hand: Hand): void => {
  const step = nextStep(db, LAST_DONE);
  if (step === undefined) throw new PlanningError("refused", "There is nothing to undo.");
  const effects = readEffects(db, step.id);
  for (const { entryNo, effect } of effects.toReversed())
    if (effect === "written") takeBack(db, entryNo, hand, `undo: ${step.label}`);
  // In the order of their first writing: of one instant, a level was read upon what had been written before it.
  const again = effects.flatMap(({ entryNo, effect }) => (effect === "taken back" ? [entryNo] : []));
  for (const entryNo of again.toSorted((a, b) => a - b)) writeAgain(db, entryNo, hand);
  turnRows(db, readChanges(db, step.id).toReversed(), "after", step.label);
  markTurned(db, step.id, "undone", hand);
};

/** Redoes the step last undone. Throws "refused" when there is none. */
export const redoStep = (db: Connection, hand: Hand): void => {
  const step = nextStep(db, FIRST_UNDONE);
  if (step === undefined) throw new PlanningError("refused", "There is nothing to redo.");
  turnRows(db, readChanges(db, step.id), "before", step.label);
  for (const { entryNo, effect } of readEffects(db, step.id))
    if (effect === "written") writeAgain(db, entryNo, hand);
    else takeBack(db, entryNo, hand, `redo: ${step.label}`);
  markTurned(db, step.id, "done", hand);
};

type Row = { readonly [property: string]: unknown };
const propertiesIn = (kept: string | null): Row | null => {
  if (kept === null) return null;
  const { [WHOLE]: _mark, ...properties } = JSON.parse(kept) as Row;
  return properties;
};

const LAST_WHOLE =
  "SELECT before FROM edit_change WHERE kind = ? AND row_id = ? AND after IS NULL ORDER BY step_id DESC LIMIT 1";

/** The row as it is now or, if it was removed since, as it was then: for its name. */
const knownRow = (db: Connection, kind: ImageKind, id: string): Row =>
  (readImage(db, kind, id) as unknown as Row | null) ??
  propertiesIn((db.prepared(LAST_WHOLE).pluck().get(kind, id) as string | undefined) ?? null) ?? { id };

const rowLine = (
  db: Connection,
  { kind, row_id: id, ...change }: ChangeRow,
  nameOf: (id: string) => string,
): string => {
  const [before, after] = [propertiesIn(change.before), propertiesIn(change.after)];
  if (before === null || after === null) return changeLine(kind, before, after, nameOf);
  const known = knownRow(db, kind, id);
  return changeLine(kind, { ...known, ...before }, { ...known, ...after }, nameOf);
};

const entryLine = (db: Connection, { entryNo, effect }: EntryEffect): string => {
  const { kind, note } = db.prepared("SELECT kind, note FROM entry WHERE no = ?").get(entryNo) as {
    kind: string;
    note: string;
  };
  return `journal entry, ${kind}: ${effect}${note === "" ? "" : ` (${note.slice(0, 80)})`}`;
};

/** Steps, newest first. */
export const readSteps = (db: Connection, offset: number, limit: number): readonly EditStep[] =>
  db
    .prepared("SELECT id, at, author, label, reason, state FROM edit_step ORDER BY id DESC LIMIT ? OFFSET ?")
    .all(limit, offset) as EditStep[];

/** The same with a line for each row and entry. */
export const readHistory = (
  db: Connection,
  offset: number,
  limit: number,
  nameOf: (id: string) => string,
): readonly EditRecord[] =>
  readSteps(db, offset, limit).map((step) => ({
    ...step,
    changes: [
      ...readChanges(db, step.id).map((c) => rowLine(db, c, nameOf)),
      ...readEffects(db, step.id).map((effect) => entryLine(db, effect)),
    ],
  }));
