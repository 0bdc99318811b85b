/** The one step that a merge writes: entries, readings, statuses and rows, and what of ours is taken back for it. */
import type { Change, EntitySet } from "../entity/entities.ts";
import type { JournalEntry, Reading } from "../ledger/journal.ts";
import type { Step } from "../ledger/books.ts";
import type { Recorder } from "../records/recorder.ts";
import type { Applied } from "./applied.ts";
import type { Comparison } from "./compare.ts";
import { MERGE_LABEL } from "./merge-label.ts";
import { rowsAlong, withChanges } from "./rows-along.ts";
import { type Settled, settleLevels } from "./settle-levels.ts";
import { type SideEntry, statesLevel, tanksOf } from "./side.ts";
import { statusChanges } from "./status-changes.ts";
import { takeCases } from "./take-case.ts";

/** A step, with what it is made of, for a summary. */
export interface MergeStep {
  readonly step: Step;
  /** Ours as it will be. */
  readonly plan: EntitySet;
  readonly rowsAlong: readonly Change[];
  readonly statuses: readonly Change[];
  readonly settled: Settled;
  /** Our entries that are written anew because records come in before the level that they state. */
  readonly bookedAnew: readonly SideEntry[];
}

export interface MergeWords {
  /** Name of the other file. */
  readonly fileName: string;
  readonly programme: string;
  /** Who recorded what comes in. */
  readonly authors: readonly string[];
}

const MAX_LABEL = 120;
const MAX_REASON = 500;

const reasonOf = ({ fileName, programme, authors }: MergeWords): string => {
  const by = authors.length === 0 ? "" : `, records of ${authors.join(", ")}`;
  return `merged from ${fileName}, programme ${programme}${by}`.slice(0, MAX_REASON);
};

/** An id for their row here: its own, or a new one where it is taken. */
const idHere = (id: string, taken: (id: string) => boolean, fresh: () => string): string => (taken(id) ? fresh() : id);

/** Their entries as they are written here, by their id there. Who recorded them, and when, stays. */
const writtenEntries = (
  { ours }: Comparison,
  applied: Applied,
  { postings }: Settled,
  recorder: Recorder,
): ReadonlyMap<string, JournalEntry> => {
  const taken = new Set(ours.document.entries.map(({ id }) => id));
  return new Map(
    applied.writes.map(({ entry }) => {
      const id = idHere(entry.id, (each) => taken.has(each), recorder.newId);
      return [entry.id, { ...entry, id, postings: [...(postings.get(entry.id) ?? entry.postings)] }];
    }),
  );
};

/** Our entries whose booking changes; and those that state a level of the same tank at the same instant after one, to stay after it. */
const bookedAnew = ({ ours }: Comparison, applied: Applied, { postings }: Settled): readonly SideEntry[] => {
  const theirs = new Set(applied.writes.map(({ entry }) => entry.id));
  const gone = new Set(applied.takenBack);
  const moved = new Set<string>();
  return ours.inForce.filter((record) => {
    const { entry } = record;
    if (gone.has(record) || !statesLevel(entry)) return false;
    const places = tanksOf(entry).map((tankId) => `${tankId}/${entry.at}`);
    const isAnew = (postings.has(entry.id) && !theirs.has(entry.id)) || places.some((place) => moved.has(place));
    if (isAnew) for (const place of places) moved.add(place);
    return isAnew;
  });
};

/**
 * What theirs moves, then our levels written anew, which hold what flowed in at their instant, then the levels of theirs: of
 * two stated at one instant, the one that was here stays the first.
 */
const inOrderOfWriting = (ours: readonly JournalEntry[], theirs: readonly JournalEntry[]): readonly JournalEntry[] => [
  ...theirs.filter((entry) => !statesLevel(entry)),
  ...ours,
  ...theirs.filter((entry) => statesLevel(entry)),
];

interface Readings {
  readonly readings: readonly Reading[];
  readonly relinked: readonly { readonly readingId: string; readonly entryId: string }[];
}

/** Their readings as they come in: with the entry that stands for each here; one that lies here without a booking gets it. */
const writtenReadings = (
  { ours, alike }: Comparison,
  applied: Applied,
  written: ReadonlyMap<string, JournalEntry>,
  recorder: Recorder,
): Readings => {
  const booked = applied.writes.flatMap(({ entry, readings }) =>
    readings.map((row) => ({ row, entryId: written.get(entry.id)?.id ?? null })),
  );
  const plain = applied.readings.map((row) => ({
    row,
    entryId: row.entryId === null || row.isWithdrawn ? null : (alike.get(row.entryId) ?? null),
  }));
  const readings: Reading[] = [];
  const relinked: { readingId: string; entryId: string }[] = [];
  for (const { row, entryId } of [...booked, ...plain]) {
    const here = ours.readings.get(row.id);
    const isKept = here !== undefined && !here.isWithdrawn && here.massKg === row.massKg && here.at === row.at;
    if (isKept && entryId !== null) relinked.push({ readingId: row.id, entryId });
    else if (!isKept)
      readings.push({
        ...row,
        entryId,
        id: here === undefined ? row.id : recorder.newId().replace(/^entry/, "reading"),
      });
  }
  return { readings, relinked };
};

/** Which flights and sorties the joining concerns. */
const keysOf = (applied: Applied): ReadonlySet<string> =>
  new Set([
    ...[...applied.writes, ...applied.takenBack].flatMap(({ entry }) =>
      entry.subjectKey === null ? [] : [entry.subjectKey],
    ),
    ...applied.statuses.map(({ key }) => key),
  ]);

/** Makes the step. Writes nothing; the store checks it again. Throws "not found" for a case that the other ledger lacks. */
export const mergeStep = (
  comparison: Comparison,
  applied: Applied,
  caseIds: readonly string[],
  words: MergeWords,
  recorder: Recorder,
): MergeStep => {
  const { ours, theirs } = comparison;
  const ourPlan = ours.document.entities;
  const theirPlan = theirs.document.entities;
  const keys = keysOf(applied);
  const theirRows = [...applied.readings, ...applied.writes.flatMap(({ readings }) => readings)];
  const along = rowsAlong(
    ourPlan,
    theirPlan,
    applied.writes.map(({ entry }) => entry),
    theirRows,
    [...keys],
  );
  const widened = withChanges(ourPlan, along);
  const settled = settleLevels(widened, ours, theirs, applied);
  const written = writtenEntries(comparison, applied, settled, recorder);
  const anew = bookedAnew(comparison, applied, settled);
  const rewritten = anew.map((record) => {
    const { author, recordedAt } = recorder;
    const postings = [...(settled.postings.get(record.entry.id) ?? record.entry.postings)];
    return { record, entry: { ...record.entry, id: recorder.newId(), author, recordedAt, postings } };
  });
  const gone = new Set([...applied.takenBack, ...anew]);
  const inForce = [
    ...ours.inForce.filter((record) => !gone.has(record)).map(({ entry }) => entry),
    ...written.values(),
    ...rewritten.map(({ entry }) => entry),
  ];
  const statuses = statusChanges(widened, theirPlan, inForce, keys, applied.statuses).filter(
    (change) =>
      change.op === "put" &&
      JSON.stringify(change.value) !==
        JSON.stringify(ourPlan[change.kind].find((row: { readonly id: string }) => row.id === change.value.id)),
  );
  const recorded = withChanges(widened, statuses);
  const cases = takeCases(recorded, theirPlan, caseIds, (kind) =>
    recorder.newId().replace(/^entry/, kind.toLowerCase()),
  );
  const { readings, relinked } = writtenReadings(comparison, applied, written, recorder);
  const step: Step = {
    label: `${MERGE_LABEL} of ${words.fileName}`.slice(0, MAX_LABEL),
    reason: reasonOf(words),
    author: recorder.author,
    recordedAt: recorder.recordedAt,
    changes: [...along, ...statuses, ...cases],
    entries: inOrderOfWriting(
      rewritten.map(({ entry }) => entry),
      [...written.values()],
    ),
    readings,
    withdrawnReadingIds: applied.withdrawn.filter((row) => !row.isWithdrawn).map(({ id }) => id),
    relinkedReadings: [
      ...relinked,
      ...rewritten.flatMap(({ record, entry }) =>
        record.readings.map(({ id }) => ({ readingId: id, entryId: entry.id })),
      ),
    ],
    reversedEntryIds: [...gone].map(({ entry }) => entry.id),
  };
  return { step, plan: withChanges(recorded, cases), rowsAlong: along, statuses, settled, bookedAnew: anew };
};
