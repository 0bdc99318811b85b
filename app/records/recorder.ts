/** Who records, when, and where new ids come from: all that a record takes from outside the ledger. */
import type { Change } from "../entity/entities.ts";
import type { JournalEntry, Reading } from "../ledger/journal.ts";
import type { LedgerBooks, Step } from "../ledger/books.ts";

export interface Recorder {
  readonly author: string;
  readonly recordedAt: number;
  /** A new id at each call, unique in the ledger. */
  readonly newId: () => string;
  /**
   * Of a record that takes the place of a wrong one: entries that were written after the wrong one and state a level. What is
   * drawn at the very instant of one of these was drawn before its gauge was read. Absent: what is drawn comes after a gauge.
   */
  readonly inFrontOf?: ReadonlySet<string>;
}

/** The ledger as far as records read it. */
export type RecordBooks = Pick<
  LedgerBooks,
  | "entities"
  | "statedLevels"
  | "tankMovements"
  | "balanceKg"
  | "entry"
  | "readings"
  | "nextStatingEntries"
  | "flowsAcross"
  | "openings"
  | "journal"
>;

/** What a record writes, before the step is made whole. */
export interface RecordDraft {
  readonly label: string;
  readonly reason?: string;
  readonly changes?: readonly Change[];
  readonly entries?: readonly JournalEntry[];
  readonly readings?: readonly Reading[];
  readonly withdrawnReadingIds?: readonly string[];
  readonly relinkedReadings?: Step["relinkedReadings"];
  readonly reversedEntryIds?: readonly string[];
}

const MAX_LABEL = 120;

/** The step that a draft becomes. */
export const stepOf = (draft: RecordDraft, recorder: Recorder): Step => ({
  label: draft.label.slice(0, MAX_LABEL),
  reason: draft.reason ?? "",
  author: recorder.author,
  recordedAt: recorder.recordedAt,
  changes: draft.changes ?? [],
  entries: draft.entries ?? [],
  readings: draft.readings ?? [],
  withdrawnReadingIds: draft.withdrawnReadingIds ?? [],
  relinkedReadings: draft.relinkedReadings ?? [],
  reversedEntryIds: draft.reversedEntryIds ?? [],
});
