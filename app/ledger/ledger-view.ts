/** What the ledger looks like from outside: answers of the queries. */
import type { Entity, EntitySet } from "../entity/entities.ts";
import type { AccountRef, JournalEntry, Reading } from "../ledger/journal.ts";
import type { LevelHistory } from "../storage/segment.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import type { KeptIssue } from "./report-issue.ts";

/** First answer of the service: a client of another contract version must not go on. */
export interface Hello {
  readonly contractVersion: number;
  readonly programVersion: string;
  readonly hasLedger: boolean;
}

/** The open ledger. */
export interface LedgerInfo {
  readonly programme: string;
  /** File name for the status line; the full path for its tooltip. */
  readonly fileName: string;
  readonly path: string;
  readonly isDemonstration: boolean;
  /** null: writable; else why not, in words. */
  readonly readOnlyBecause: string | null;
  readonly schemaVersion: number;
  /** Counts up with every change; a view that holds an older one is stale. */
  readonly revision: number;
  readonly asOfAt: number;
  /** The as-of instant was set by hand; else it follows the last record. */
  readonly isAsOfPinned: boolean;
  /** Labels of what undo and redo would do; null: nothing. */
  readonly undoLabel: string | null;
  readonly redoLabel: string | null;
  readonly planCases: readonly Entity<"planCase">[];
}

/** Everything that the views of one plan case show, in one answer. */
export interface PlanView {
  readonly revision: number;
  readonly plan: PlanSnapshot;
  /** The past of every tank, from the first record to the as-of instant. */
  readonly past: readonly LevelHistory[];
  readonly readings: readonly Reading[];
}

/** One account's total in the filtered journal, grams. */
export interface JournalSum {
  readonly account: AccountRef;
  readonly propellantId: string;
  readonly grams: number;
}

export interface JournalPage {
  readonly total: number;
  readonly entries: readonly JournalEntry[];
  /** Sums over the whole filter, not only the page. */
  readonly sums: readonly JournalSum[];
}

/** What a record would write. */
export interface RecordPreview {
  readonly label: string;
  readonly entries: readonly JournalEntry[];
  /** Entries that would be taken back because the record comes before them. */
  readonly reversedEntryIds: readonly string[];
  /** Of a correction: those entries themselves, and what it does to the levels. */
  readonly correction: Correction | null;
}

/** What putting a record right takes back, and the levels before and after. */
export interface Correction {
  readonly reversed: readonly JournalEntry[];
  readonly levels: readonly LevelChange[];
}

/** Level of a tank at the end of an instant by the books and the loss model, kg, as it stands and with a step that is looked at. */
export interface LevelChange {
  readonly tankId: string;
  readonly at: number;
  readonly beforeKg: number;
  readonly afterKg: number;
}

/** One step of the edit history, without what it changed. */
export interface EditStep {
  readonly id: number;
  readonly at: number;
  readonly author: string;
  readonly label: string;
  readonly reason: string;
  /** done: in force; undone: can be redone; replaced: undone and then passed over by a new edit. */
  readonly state: "done" | "undone" | "replaced";
}

/** One step of the edit history. */
export interface EditRecord extends EditStep {
  /** What changed, one line a row: "flight Packhorse 7: departs 2031-02-20 → 2031-02-24". */
  readonly changes: readonly string[];
}

/** The books up to an entry. The digest stands for that entry and every one before it, in their order. */
export interface Books {
  /** How many entries. */
  readonly entries: number;
  /** SHA-256, hexadecimal; of no entries, noughts. */
  readonly digest: string;
}

/** What is wrong in a ledger file; empty: nothing. */
export interface Soundness {
  readonly isSound: boolean;
  /** null: they could not be read. */
  readonly books: Books | null;
  readonly faults: readonly string[];
  readonly entries: number;
  readonly postings: number;
}

/** A whole ledger as the exchange format holds it. */
export interface LedgerDocument {
  readonly format: "coldstock-ledger";
  readonly version: 1;
  readonly programme: string;
  readonly isDemonstration: boolean;
  readonly asOfAt: number | null;
  readonly entities: EntitySet;
  readonly entries: readonly JournalEntry[];
  readonly readings: readonly Reading[];
  readonly reportIssues: readonly KeptIssue[];
}
