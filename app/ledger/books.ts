/**
 * What the product asks of the books in a ledger file: rows, entries, levels, sums, and a step written whole. All calls
 * are synchronous: one call is one transaction.
 */
import type { JournalPage } from "./ledger-view.ts";
import type { JournalFilter } from "./journal-filter.ts";
import type { LossBooking } from "./loss-booking.ts";
import type { StatementSums } from "./statement-sums.ts";
import type { Change, EntitySet } from "../entity/entities.ts";
import type { EntryKind, JournalEntry, Reading } from "./journal.ts";

export interface LedgerHeader {
  readonly programme: string;
  readonly path: string;
  readonly isDemonstration: boolean;
  readonly readOnlyBecause: string | null;
  readonly schemaVersion: number;
  readonly revision: number;
  /** As set by the planner; null: the last record. */
  readonly asOfAt: number | null;
  /** Instant of the last record in force; null: no records. */
  readonly lastRecordAt: number | null;
  readonly undoLabel: string | null;
  readonly redoLabel: string | null;
}

/** The last instant at which the books state a tank's level (opening, reading or closing in force), and that level. */
export interface StatedLevel {
  readonly tankId: string;
  readonly at: number;
  readonly massKg: number;
}

/** One recorded change of one tank's level, in order of time; entries taken back and their counter-entries are left out. */
export interface TankMovement {
  readonly tankId: string;
  readonly at: number;
  readonly kind: EntryKind;
  /** kg into (+) or out of (−) the tank. */
  readonly massKg: number;
  /** Booked level after it, kg. */
  readonly bookKg: number;
  /**
   * The level that it states, kg: an opening, a reading, a return, a closing's measured tank; 0 of a lander that leaves with
   * all that its tanks hold. null: mass was moved, or boil-off booked from the model, which states nothing.
   */
  readonly statedKg: number | null;
  /** A metered handover flowed evenly from here to `at`; null: at once. */
  readonly sinceAt: number | null;
  /** The flight's or sortie's key, where it comes from one; absent: it was not asked for. */
  readonly subjectKey?: string | null;
}

/** A record in force after some instant: one event, however many entries it wrote. */
export interface LaterRecord {
  readonly at: number;
  readonly kind: EntryKind;
  /** The flight's or sortie's key, where it comes from one. */
  readonly subjectKey: string | null;
}

/** Rows to be written together, as one step of the edit history. */
export interface Step {
  readonly label: string;
  readonly reason: string;
  readonly author: string;
  /** When it is written down. */
  readonly recordedAt: number;
  readonly changes: readonly Change[];
  readonly entries: readonly JournalEntry[];
  readonly readings: readonly Reading[];
  readonly withdrawnReadingIds: readonly string[];
  /** Readings whose booking this step writes anew, and the entry that now stands for each; absent: none. */
  readonly relinkedReadings?: readonly { readonly readingId: string; readonly entryId: string }[];
  /** Entries to be taken back by counter-entries. */
  readonly reversedEntryIds: readonly string[];
  /** undefined: as it was. */
  readonly asOfAt?: number | null;
}

/** What is read of the books and the plan, and how a step is written. */
export interface LedgerBooks {
  header(): LedgerHeader;
  /** Every row of the plan side. */
  entities(): EntitySet;
  /** The same without other cases' flights, sorties, campaigns and loss periods. Throws "not found". */
  entitiesOfCase(planCaseId: string): EntitySet;
  statedLevels(): readonly StatedLevel[];
  /** Movements after `fromAt` (exclusive) up to `untilAt`; with `mostPerTank`, the latest so many of each tank. */
  tankMovements(fromAt: number, untilAt: number, mostPerTank?: number): readonly TankMovement[];
  /** The same of one tank alone: of a large journal the others' need not be read. */
  movementsOfTank(tankId: string, fromAt: number, untilAt: number): readonly TankMovement[];
  /** Of each tank that the books know, the instant of its first movement in force. */
  openings(): readonly { readonly tankId: string; readonly at: number }[];
  /** Records in force after an instant (exclusive), with the readings that were not booked. */
  recordsAfter(at: number): readonly LaterRecord[];
  /** Mass on an account, kg. */
  balanceKg(accountId: string, propellantId: string): number;
  entry(entryId: string): JournalEntry;
  /**
   * Entries in force that state the level of a tank after an instant (exclusive), those `without` left out: all of the first
   * two instants that have any, earliest first, at one instant as they were written.
   */
  nextStatingEntries(tankId: string, afterAt: number, without?: ReadonlySet<string>): readonly JournalEntry[];
  /** Entries in force of metered handovers that were running into a tank at an instant. */
  flowsAcross(tankId: string, at: number): readonly JournalEntry[];
  readings(): readonly Reading[];
  /** Sums for the loss statement by depot, propellant and period between two of the rising instants. */
  statementSums(edges: readonly number[]): readonly StatementSums[];
  /** Loss that readings and closings booked at depots after an instant (exclusive), to the end of the books. */
  lossBookings(afterAt: number): readonly LossBooking[];
  journal(filter: JournalFilter): JournalPage;
  /**
   * Does something to the ledger to see what comes of it, and takes all of it back again. `mayOverdraw`: what is tried may
   * leave a tank below empty on the way, as where a record is taken out before the right one takes its place.
   */
  rehearse<T>(act: (books: LedgerBooks) => T, mayOverdraw?: boolean): T;
  /** Writes a step whole or not at all. Checks references and the rules that the schema carries. */
  commit(step: Step): void;
  /** When flights were first planned to depart, by key, as far as the edit history goes back. */
  firstPlannedDepartures(): ReadonlyMap<string, number>;
}
