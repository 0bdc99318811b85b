/**
 * All that the product asks of a ledger file: its books and what else it keeps. `db` implements it; nothing here knows
 * how. All calls are synchronous: one call is one transaction.
 */
import type { Books, EditRecord, EditStep, Soundness, LedgerDocument } from "../ledger/ledger-view.ts";
import type { CalledOff } from "../ledger/called-off.ts";
import type { NewIssue, ReportIssue } from "../ledger/report-issue.ts";
import type { RememberedMapping } from "../ledger/column-mapping.ts";
import type { RiskAnswer } from "../risk/answer.ts";
import type { KeptRun, NewRun } from "../risk/kept-run.ts";
import type { KeptStudy, NewStudy } from "../study/kept-study.ts";
import type { StudyAnswer } from "../study/study-answer.ts";
import type { LedgerBooks } from "../ledger/books.ts";

export interface LedgerStore extends LedgerBooks {
  /** Undoes or redoes one step: plan rows by their images, journal entries by counter-entries. Throws "refused" when there is none. */
  undo(author: string, recordedAt: number): void;
  redo(author: string, recordedAt: number): void;
  history(offset: number, limit: number): readonly EditRecord[];
  /** Issues of reports, without their content, the first first. */
  reportIssues(): readonly ReportIssue[];
  /** One issue with its content. Throws "not found"; "refused" if it is not what was issued. */
  reportIssue(number: number): ReportIssue & { readonly content: string };
  /** Seals an issue and keeps it for good. Throws "refused" if its number is not the next one. */
  keepReportIssue(issue: NewIssue): ReportIssue;
  /** Steps of editing that were done, undone or redone after an issue (null: all there are), newest first. */
  changesSince(issueNumber: number | null, limit: number): readonly EditStep[];
  /** The newest step of the edit history; 0: none. */
  newestStepId(): number;
  /** When a step was made; null: there is none of that number. */
  stepAt(id: number): number | null;
  /** Kept runs of the risk, without their answers, the newest first. */
  riskRuns(): readonly KeptRun[];
  /** One with its answer. Throws "not found"; "refused" if the answer is not what was kept. */
  riskRun(number: number): KeptRun & { readonly answer: RiskAnswer };
  /** Keeps a run under the next number. No step of the edit history: it is a fact about a plan, not a part of it. */
  keepRiskRun(run: NewRun): KeptRun;
  /** Throws "not found". */
  deleteRiskRun(number: number): void;
  /** Kept studies, without their rows, the newest first. */
  studies(): readonly KeptStudy[];
  /** One with its rows. Throws "not found"; "refused" if they are not what was kept. */
  study(number: number): KeptStudy & { readonly answer: StudyAnswer };
  /** Keeps a study under the next number. No step of the edit history: it is a fact about a plan, not a part of it. */
  keepStudy(study: NewStudy): KeptStudy;
  /** Throws "not found". */
  deleteStudy(number: number): void;
  /** How columns of tables were read, the latest used first. */
  columnMappings(): readonly RememberedMapping[];
  /** Remembers it for tables with just these headings; `at`: now. No step of the edit history. */
  keepColumnMapping(mapping: RememberedMapping, at: number): void;
  /** Flights and sorties that a plan case had and has no longer, as far as this file's edit history goes. */
  calledOff(planCaseId: string): readonly CalledOff[];
  /** By what this ledger and every copy of it are known, twelve hexadecimal digits; null: its books have no entry yet. */
  identity(): string | null;
  /** The books as they stand. */
  books(): Books;
  /** The books whose digest begins so, as they stood at their last entry; null: there were none, or more than one. */
  booksOf(digest: string): Books | null;
  verify(): Soundness;
  document(): LedgerDocument;
  /** Writes the whole ledger, with its history, as a new file. Throws "storage" if there is one of that name. */
  copyTo(path: string): void;
  /**
   * A copy as a new file by SQLite's own backup, while edits go on. Throws "storage", or "not a ledger" where the copy is
   * damaged; then there is no file.
   */
  backUp(path: string): Promise<void>;
  close(): void;
}
