/** What reading a table or a calendar found: how its columns are understood, what each row would do, what is wrong. */
import type { CalendarForms } from "../calendar/calendar-forms.ts";
import type { ColumnMapping, ColumnUnit, RowKind, Separator } from "../../ledger/column-mapping.ts";
import type { DateForm } from "../../format/read-date.ts";
import type { DecimalSign } from "../../format/read-number.ts";

export interface RowFault {
  /** Line of the file or row of the sheet, from 1. */
  readonly line: number;
  /** The column's heading in the file; null: the row as a whole. */
  readonly column: string | null;
  readonly reason: string;
}

/** How it was decided what a column, or the form of figures and dates, means. */
export type Decision = "guessed" | "remembered" | "chosen" | "undecided";

export interface ColumnPreview {
  readonly heading: string;
  /** The first few values. */
  readonly samples: readonly string[];
  /** The id of our column; null: left out, or undecided. */
  readonly to: string | null;
  readonly unit: ColumnUnit | null;
  readonly decision: Decision;
  /** What is to be decided, or was found odd; null: nothing. */
  readonly note: string | null;
}

/** One of our columns, as a person chooses it. */
export interface ColumnTarget {
  readonly id: string;
  readonly name: string;
  /** The heading that an exported table gives it, without unit. */
  readonly heading: string;
  readonly units: readonly ColumnUnit[];
}

export interface Decided<T> {
  readonly value: T | null;
  readonly decision: Decision;
  /** Whether anything in the file hangs on it. */
  readonly isAsked: boolean;
}

export interface FieldChange {
  readonly field: string;
  /** null: there was nothing, as in a new row. */
  readonly before: string | null;
  readonly after: string;
}

export interface RowEffect {
  readonly line: number;
  readonly what: "new" | "changed" | "unchanged";
  readonly name: string;
  /** Of a changed row what changes; of a new one what it is. */
  readonly fields: readonly FieldChange[];
}

export interface CalendarPreview extends CalendarForms {
  /** Events whose times bear no zone. */
  readonly floating: number;
  /** Events of whole days. */
  readonly dated: number;
}

export interface RowsPreview {
  readonly kind: RowKind;
  readonly format: "text" | "workbook" | "calendar";
  /** How the file was read: "UTF-8 text, cells parted by commas; headings in line 1". */
  readonly readAs: string;
  readonly sheets: readonly string[];
  readonly sheet: string | null;
  readonly targets: readonly ColumnTarget[];
  readonly columns: readonly ColumnPreview[];
  readonly dates: Decided<DateForm>;
  readonly decimals: Decided<DecimalSign>;
  readonly separator: Separator | null;
  /** A calendar: what was said of its times, and how many events hang on it; null: a table. */
  readonly calendar: CalendarPreview | null;
  /** All that was decided, guessed and remembered: what is kept for the next file with these headings. */
  readonly mapping: ColumnMapping;
  /** What must be decided before any row can be taken, a sentence each. */
  readonly questions: readonly string[];
  /** What a person should know of how the file was read: an event without a time zone. */
  readonly remarks: readonly string[];
  readonly rows: number;
  readonly newRows: number;
  readonly changedRows: number;
  readonly unchangedRows: number;
  /** The first of them. */
  readonly faults: readonly RowFault[];
  readonly faultCount: number;
  readonly faultyRows: number;
  /** The first rows that change something. */
  readonly effects: readonly RowEffect[];
  /** Whether anything was written. */
  readonly isTaken: boolean;
  /** Of gauge readings that were taken, or would be booked: which, and which books open; null: none. */
  readonly booking: string | null;
}
