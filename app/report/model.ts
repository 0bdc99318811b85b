/** The report as plain data: what every form of it (PDF, page, workbook, CSV) is written from. */
import type { PagePicture } from "../picture/kept-shape.ts";

/** A cell holds the value itself, never its text, so that every form shows the same number. */
export type Cell =
  /** `to`: the table or chart of this report that tells more of it, by id; a form that has links makes one of it. */
  | { readonly kind: "text"; readonly text: string; readonly to?: string | undefined }
  | { readonly kind: "mass"; readonly kg: number }
  /** What is missing, or a margin, kg: never rounded to nothing. */
  | { readonly kind: "shortage"; readonly kg: number }
  /** Exact, as booked: whole grams. */
  | { readonly kind: "grams"; readonly grams: number }
  | { readonly kind: "number"; readonly value: number; readonly decimals: number }
  | { readonly kind: "percent"; readonly value: number; readonly decimals: number }
  | { readonly kind: "days"; readonly value: number; readonly decimals: number }
  | { readonly kind: "instant"; readonly at: number }
  | { readonly kind: "nothing" };

export interface Column {
  readonly title: string;
  /** Unit of the column's numbers; masses take the report's unit. Null: none. */
  readonly unit: string | null;
  readonly align: "start" | "end";
  /** Share of the width beside the other columns'. */
  readonly weight: number;
}

export interface Table {
  readonly kind: "table";
  /** Names the sheet and the file; unique within the report. */
  readonly id: string;
  readonly caption: string;
  readonly columns: readonly Column[];
  readonly rows: readonly (readonly Cell[])[];
  /** Rows that stand out: what is short, by weight and a mark; a sum, set apart. None where it is not said. */
  readonly marks?: readonly RowMark[] | undefined;
  /** As much of it as paper and page show, from the first on; workbook and CSV have all. Not said: all of it everywhere. */
  readonly onPaper?: PaperPart | undefined;
}

export interface PaperPart {
  readonly rows: number;
  readonly columns: number;
}

/** `row`: its place from 0. */
export interface RowMark {
  readonly row: number;
  readonly as: "warning" | "total";
}

/** How likely it holds: the figure, and in words of what and on what it rests. */
export interface ReportedChance {
  readonly figure: string;
  readonly words: string;
}

/** A term and what there is to say of it. */
export interface Fact {
  readonly term: string;
  readonly text: string;
}

export interface Chart {
  readonly kind: "chart";
  readonly id: string;
  readonly caption: string;
  readonly description: string;
  readonly picture: PagePicture;
}

export type Block =
  | { readonly kind: "paragraph"; readonly text: string }
  | { readonly kind: "list"; readonly items: readonly string[] }
  /** A word that decides, in large type, with its reason. */
  | {
      readonly kind: "verdict";
      readonly holds: boolean;
      readonly word: string;
      readonly sentence: string;
      /** Not there: it is not known. */
      readonly chance?: ReportedChance | undefined;
    }
  /** Terms with what there is to say of them, one below the other. */
  | { readonly kind: "facts"; readonly items: readonly Fact[] }
  | { readonly kind: "caution"; readonly text: string }
  | Chart
  | Table;

export interface Section {
  readonly id: string;
  readonly title: string;
  readonly blocks: readonly Block[];
}

export type ReportMassUnit = "t" | "kg";
export type PaperSize = "A4" | "letter";

export interface ReportModel {
  readonly title: string;
  readonly programme: string;
  readonly caseName: string;
  readonly author: string;
  /** The instant printed on it: of its issue, or of its making. */
  readonly issuedAt: number;
  /** null: a draft. */
  readonly issueNumber: number | null;
  /** The plan's as-of instant; not there in reports of an earlier form. */
  readonly asOfAt?: number | undefined;
  /** What it is issued for; may be empty. */
  readonly note: string;
  /** SHA-256 of what it was made from, hexadecimal. */
  readonly inputHash: string;
  /** SHA-256 of the books that it rests on, hexadecimal; not said: it was made before books had one, or there are none. */
  readonly booksDigest?: string | undefined;
  readonly massUnit: ReportMassUnit;
  readonly paper: PaperSize;
  readonly sections: readonly Section[];
}
