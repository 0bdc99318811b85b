/** What reading a CSV file found. */

export interface CsvFault {
  /** Line of the file, from 1. */
  readonly line: number;
  /** Column heading; null: the row as a whole. */
  readonly column: string | null;
  readonly reason: string;
}

export interface CsvPreview {
  readonly kind: "flights" | "sorties" | "readings";
  readonly rows: number;
  readonly goodRows: number;
  readonly faults: readonly CsvFault[];
  /** One line a good row: "new flight Packhorse 31, departs 2032-01-04". At most the first 200. */
  readonly effects: readonly string[];
  /** Whether anything was written. */
  readonly isTaken: boolean;
}
