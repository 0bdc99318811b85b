/** What a report is made from: the plan, what was computed from it, what was recorded, and what was asked for. */
import type { CalledOff } from "../ledger/called-off.ts";
import type { Books, EditStep, PlanView } from "../ledger/ledger-view.ts";
import type { LevelHistory } from "../storage/segment.ts";
import type { TankFitQuestion } from "../losses/fit/fit-question.ts";
import type { TankFit } from "../losses/fit/fit-tank.ts";
import type { LossBook } from "../losses/loss-book.ts";
import type { RiskAnswer, RiskDifference } from "../risk/answer.ts";
import type { ListedStudy } from "../study/kept-study.ts";
import type { StudyAnswer } from "../study/study-answer.ts";
import type { SupplyAnswer } from "../supply/answer.ts";
import type { ReportedStanding } from "./finished.ts";
import type { PaperSize, ReportMassUnit } from "./model.ts";

/** One plan case as it is read from the ledger, with its supply check. */
export interface CheckedCase {
  readonly view: PlanView;
  readonly supply: SupplyAnswer;
}

/** One plan case with its answers. */
export interface ReportedCase extends CheckedCase {
  readonly forecast: readonly LevelHistory[];
}

/** What the person chose. */
export interface ReportChoices {
  readonly fromAt: number;
  readonly untilAt: number;
  readonly massUnit: ReportMassUnit;
  readonly paper: PaperSize;
  /** Ids of sections, in the order in which they stand. */
  readonly sectionIds: readonly string[];
  /** Of the calendar: the departure windows as well; not said: no. */
  readonly departureWindows?: boolean | undefined;
  /** Of the calendar: the dates to leave by, and all else that is watched, as well; not said: no. */
  readonly leaveBy?: boolean | undefined;
}

/** The issue before: its number, when it was issued, and how the sorties stood in it. */
export interface EarlierIssue {
  readonly number: number;
  readonly issuedAt: number;
  readonly sorties: readonly ReportedStanding[];
}

/** What is known of the risk. */
export interface ReportedRisk {
  readonly answer: RiskAnswer;
  /** The number of the kept run that it is; null: it was run for the report. */
  readonly runNumber: number | null;
  /** This case less the compared one, run by run under the same draws; null: none is compared. */
  readonly difference: RiskDifference | null;
}

/** A kept study of the plan case. */
export interface ReportedStudy {
  readonly study: ListedStudy;
  /** Its question and rows; null: only its name is told, or it cannot be read. */
  readonly answer: StudyAnswer | null;
  /** Why it cannot be read; null: it can, or it was not asked for. */
  readonly cannot: string | null;
}

/** Read from the ledger; with forecasts and the hash of these inputs it becomes the context. */
export interface ReportInputs {
  readonly programme: string;
  readonly isDemonstration: boolean;
  readonly author: string;
  readonly issuedAt: number;
  /** null: a draft. */
  readonly issueNumber: number | null;
  /** What it is issued for; may be empty. */
  readonly note: string;
  readonly choices: ReportChoices;
  /** The books of the ledger as the report found them. */
  readonly books: Books;
  readonly main: CheckedCase;
  readonly compared: CheckedCase | null;
  /** Calendar months of the recorded part of the period; null: nothing is recorded in it. */
  readonly losses: LossBook | null;
  /** null: no sortie is ahead that could fly or not. */
  readonly risk: ReportedRisk | null;
  /** Kept studies of the plan case, the newest first; none where the report does not tell of them. */
  readonly studies: readonly ReportedStudy[];
  /** What a loss rate of each depot tank is fitted from, over the recorded part of the period. */
  readonly fitQuestions: readonly TankFitQuestion[];
  /** For the calendar: by what the ledger is known (null: its books have no entry yet), and what the case has no longer. */
  readonly ledgerId: string | null;
  readonly calledOff: readonly CalledOff[];
  /** The last issue of this plan case; null: there is none. */
  readonly since: EarlierIssue | null;
  /** Steps of editing done, undone or redone since that issue (all, where there is none), newest first. */
  readonly changes: readonly EditStep[];
}

/** A loss rate measured over the period; or why there is none. */
export interface ReportedFit {
  readonly tankId: string;
  readonly fit: TankFit | null;
  readonly cannot: string | null;
}

export interface ReportContext extends Omit<ReportInputs, "main" | "compared" | "fitQuestions"> {
  readonly fits: readonly ReportedFit[];
  readonly main: ReportedCase;
  readonly compared: ReportedCase | null;
  /** SHA-256 of the plan, the records and the choices, hexadecimal. */
  readonly inputHash: string;
}
