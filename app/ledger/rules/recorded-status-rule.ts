/**
 * The status of a flight or sortie that happened comes from its records, so that the books and the plan say the same. By
 * hand it is changed only where no record speaks of it. What records, undo, redo and imports write is not asked here.
 */
import { PlanningError } from "../../ground/failure.ts";
import type { Change, EntitySet } from "../../entity/entities.ts";
import { findEntity } from "../../entity/entity-index.ts";
import type { Flight } from "../../entity/flight.ts";
import type { Sortie } from "../../entity/sortie.ts";
import type { EntryKind, JournalEntry } from "../journal.ts";

/** What each kind of entry makes of the flight or sortie that it speaks of, and how far along that is. */
export const impliedBy: { readonly [K in EntryKind]?: { readonly status: string; readonly rank: number } } = {
  departure: { status: "departed", rank: 1 },
  arrival: { status: "arrived", rank: 2 },
  "loss of flight": { status: "lost", rank: 2 },
  loading: { status: "departed", rank: 1 },
  return: { status: "flown", rank: 2 },
};

const byRecord: ReadonlySet<string> = new Set(Object.values(impliedBy).map(({ status }) => status));

/** How a status is come to, in words of the menu. */
const recordWords: Readonly<Record<string, string>> = {
  departed: "recording that it departed",
  arrived: "recording its arrival",
  lost: "recording its loss",
  flown: "recording its return",
};

/** The status that entries imply, the furthest along; null: none says anything. Counter-entries and what they take back are passed over. */
const impliedStatus = (entries: readonly JournalEntry[]): string | null => {
  const gone = new Set(entries.map(({ reversesId }) => reversesId));
  const found = entries.flatMap(({ id, kind }) => (gone.has(id) ? [] : (impliedBy[kind] ?? [])));
  return found.toSorted((a, b) => b.rank - a.rank)[0]?.status ?? null;
};

const faultOf = (
  row: Flight | Sortie,
  before: Flight | Sortie | null,
  others: readonly (Flight | Sortie)[],
  recorded: () => string | null,
): string | null => {
  const was = before?.status ?? "planned";
  if (row.status === was) return null;
  // The same flight in another plan case: what happened to it there happened to it here.
  if (before === null && others.some(({ key, status }) => key === row.key && status === row.status)) return null;
  if (!byRecord.has(row.status) && !byRecord.has(was)) return null;
  const says = recorded();
  if (says !== null)
    return says === row.status
      ? null
      : `${row.name} is ${says} by its records. Reverse the record in the journal; its status follows.`;
  return byRecord.has(row.status)
    ? `${row.name} becomes ${row.status} by ${recordWords[row.status] ?? "recording it"} (menu Record), so that the books follow.`
    : null;
};

/** Throws "refused" with the field. `entriesOf`: every journal entry that speaks of a key, those taken back among them. */
export const refuseStatusByHand = (
  changes: readonly Change[],
  before: EntitySet,
  entriesOf: (key: string) => readonly JournalEntry[],
): void => {
  changes.forEach((change, index) => {
    if (change.op !== "put" || (change.kind !== "flight" && change.kind !== "sortie")) return;
    const { value, kind } = change;
    const known = findEntity(before, kind, value.id);
    const fault = faultOf(value, known, before[kind], () => impliedStatus(entriesOf(value.key)));
    if (fault !== null) throw new PlanningError("refused", fault, `changes.${index}.value.status`);
  });
};
