/** Copies of a ledger that the program keeps by itself, and states of it that a person named to be able to go back. */

export interface KeptCopy {
  /** Tells it apart from the others of its ledger; a file name. */
  readonly id: string;
  /** day: made by the program, one a day; point: named by a person. */
  readonly kind: "day" | "point";
  /** Of a point; of a day, its date. */
  readonly name: string;
  /** When it was made, ms UTC. */
  readonly at: number;
  readonly bytes: number;
}

export interface KeptCopies {
  /** Where they lie, for a person. */
  readonly folder: string;
  /** The latest first. */
  readonly copies: readonly KeptCopy[];
  /** Why the last daily copy could not be made, a sentence; null: nothing went wrong. */
  readonly fault: string | null;
}

/** What going back would do to one plan case. */
export interface CaseGoingBack {
  readonly name: string;
  /** comes back: only the copy has it; goes: only the ledger has it. */
  readonly change: "changes" | "comes back" | "goes";
  /** Flights and sorties that would be other, come or go. */
  readonly flights: number;
  readonly sorties: number;
  /** The first of what would change, in words. */
  readonly words: readonly string[];
}

/** Rows that going back takes away (only the ledger has them), brings back (only the copy), and changes. */
export interface RowsGoingBack {
  readonly gone: number;
  readonly back: number;
  readonly changed: number;
}

/** What going back to a copy would change. */
export interface GoingBack {
  readonly copy: KeptCopy;
  /** Of the ledger when it was looked at: going back is refused when it is another by then. */
  readonly revision: number;
  /** Edits, undone ones among them, that came after the copy; null: the copy has another history than the ledger. */
  readonly editsSince: number | null;
  /** Cases in which something would be other. */
  readonly cases: readonly CaseGoingBack[];
  /** Depots, tanks, craft and whatever else plans are made with. */
  readonly others: RowsGoingBack;
  readonly entries: RowsGoingBack;
  readonly readings: RowsGoingBack;
  /** Issues of reports that only the ledger has: their numbers would be given again. */
  readonly issuesGone: number;
  /** Nothing at all. */
  readonly isNothing: boolean;
}
