/** What a report is made from: the plan, what was computed from it, what was recorded, and what was asked for. */
import type { EditRecord, PlanView } from "../contract/ledger-view.ts";
import type { LevelHistory } from "../forecast/segment.ts";
import type { LossBook } from "../losses/loss-book.ts";
import type { SupplyReport } from "../supply/report.ts";
import type { PaperSize, ReportMassUnit } from "./model.ts";

/** One plan case with its answers. */
export interface ReportedCase {
  readonly view: PlanView;
  readonly forecast: readonly LevelHistory[];
  readonly supply: SupplyReport;
}

/** What the person chose. */
export interface ReportChoices {
  readonly fromAt: number;
  readonly untilAt: number;
  readonly massUnit: ReportMassUnit;
  readonly paper: PaperSize;
  /** Ids of sections, in the order in which they stand. */
  readonly sectionIds: readonly string[];
}

export interface ReportContext {
  readonly programme: string;
  readonly isDemonstration: boolean;
  readonly author: string;
  readonly issuedAt: number;
  readonly issueNumber: number | null;
  readonly choices: ReportChoices;
  readonly main: ReportedCase;
  readonly compared: ReportedCase | null;
  /** Calendar months of the recorded part of the period; null: nothing is recorded in it. */
  readonly losses: LossBook | null;
  /** Steps of editing since the last issue, newest first. */
  readonly changes: readonly EditRecord[];
}
