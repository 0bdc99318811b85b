/** The rules that a whole document must keep beyond its form: ids once, the rules of the plan, books that balance. */
import { PlanningError } from "../ground/failure.ts";
import type { LedgerDocument } from "../ledger/ledger-view.ts";
import { applyChanges, emptyEntitySet } from "../entity/apply-changes.ts";
import { type Change, type EntitySet, entityKinds } from "../entity/entities.ts";
import { findEntity } from "../entity/entity-index.ts";
import type { JournalEntry } from "../ledger/journal.ts";
import { checkEntry } from "../ledger/rules/check-entry.ts";
import { checkPlan } from "../ledger/rules/check-plan.ts";
import { repeated } from "../ledger/rules/rule.ts";

const refused = (message: string, field: string) => new PlanningError("refused", message, field);

const refuseRepeatedIds = (rows: readonly { readonly id: string }[], place: string): void => {
  const [index] = repeated(rows.map((row) => row.id));
  if (index !== undefined) throw refused(`The id ${rows[index]?.id} stands here twice.`, `${place}.${index}.id`);
};

/** The document's rows as one step: "changes.7.value.name" of it is "entities.flight.2.name" of the document. */
const checkEntities = (document: LedgerDocument): EntitySet => {
  const places: string[] = [];
  const changes = entityKinds.flatMap((kind) => {
    refuseRepeatedIds(document.entities[kind], `entities.${kind}`);
    return document.entities[kind].map((value, index) => {
      places.push(`entities.${kind}.${index}`);
      return { op: "put", kind, value } as Change;
    });
  });
  const before = emptyEntitySet();
  const plan = applyChanges(before, changes);
  try {
    checkPlan(plan, changes, before);
  } catch (error) {
    if (!(error instanceof PlanningError)) throw error;
    const field = error.field?.replace(/^changes\.(\d+)\.value/, (_all, index: string) => places[Number(index)] ?? "");
    throw new PlanningError(error.code, error.message, field ?? null);
  }
  return plan;
};

const sums = (entry: JournalEntry, sign: 1 | -1, key: (posting: JournalEntry["postings"][number]) => string) =>
  entry.postings.map((posting) => [key(posting), sign * posting.grams] as const);

const isZero = (lines: readonly (readonly [string, number])[]): boolean => {
  const totals = new Map<string, number>();
  for (const [key, grams] of lines) totals.set(key, (totals.get(key) ?? 0) + grams);
  return [...totals.values()].every((grams) => grams === 0);
};

const refuseUnbalanced = (entry: JournalEntry, index: string): void => {
  if (!isZero(sums(entry, 1, (posting) => posting.propellantId)))
    throw refused(
      `The entry ${entry.id} does not balance: each propellant's postings sum to 0 g.`,
      `${index}.postings`,
    );
};

const accountOf = ({ account, propellantId }: JournalEntry["postings"][number]) =>
  `${account.kind}/${account.ownerId}/${propellantId}`;

/** A counter-entry stands after what it takes back, at its instant, and mirrors it; nothing is taken back twice. */
const refuseWrongReversal = (
  entry: JournalEntry,
  earlier: ReadonlyMap<string, JournalEntry>,
  takenBack: Set<string>,
  place: string,
): void => {
  if ((entry.kind === "reversal") !== (entry.reversesId !== null))
    throw refused(`A reversal, and no other entry, names the entry that it reverses.`, `${place}.reversesId`);
  if (entry.reversesId === null) return;
  const original = earlier.get(entry.reversesId);
  const mirrors =
    original !== undefined &&
    original.kind !== "reversal" &&
    original.at === entry.at &&
    isZero([...sums(entry, 1, accountOf), ...sums(original, 1, accountOf)]);
  if (!mirrors || takenBack.has(entry.reversesId))
    throw refused(
      `The entry ${entry.id} does not reverse, once and exactly, an entry that stands before it at the same instant.`,
      `${place}.reversesId`,
    );
  takenBack.add(entry.reversesId);
};

/** Throws "refused" with the field in the document. */
export const checkDocument = (document: LedgerDocument): void => {
  const plan = checkEntities(document);
  refuseRepeatedIds(document.entries, "entries");
  refuseRepeatedIds(document.readings, "readings");
  const earlier = new Map<string, JournalEntry>();
  const takenBack = new Set<string>();
  document.entries.forEach((entry, i) => {
    const place = `entries.${i}`;
    // What was taken back may speak of things that were removed since.
    refuseUnbalanced(entry, place);
    refuseWrongReversal(entry, earlier, takenBack, place);
    earlier.set(entry.id, entry);
  });
  document.entries.forEach((entry, i) => {
    if (entry.kind !== "reversal" && !takenBack.has(entry.id)) checkEntry(plan, entry, `entries.${i}`);
  });
  document.reportIssues.forEach(({ number }, i) => {
    if (number !== i + 1)
      throw refused("Issues of reports are numbered 1, 2, 3 without a gap.", `reportIssues.${i}.number`);
  });
  document.readings.forEach((reading, i) => {
    if (findEntity(plan, "tank", reading.tankId) === null)
      throw refused(`There is no tank ${reading.tankId}.`, `readings.${i}.tankId`);
    if (reading.entryId !== null && !earlier.has(reading.entryId))
      throw refused(`There is no entry ${reading.entryId}.`, `readings.${i}.entryId`);
  });
};
