/**
 * The contract: every command, query and question, with the schema of its input and the type of its answer. The client, the
 * service, the command line and the documentation derive from this table; there is no second list.
 */
import { csvForm } from "../format/csv-form.ts";
import { z } from "zod";
import { type ReportIssue, issueNote } from "../ledger/report-issue.ts";
import type { ReportModel } from "../report/model.ts";
import { type ReportFile, reportChoices, reportRequest, reportSubject } from "../ledger/report-request.ts";
import { columnMapping, rowKinds } from "../ledger/column-mapping.ts";
import { calendarForms } from "../exchange/calendar/calendar-forms.ts";
import type { RowsPreview } from "../exchange/rows/rows-preview.ts";
import { type RowsFile, rowsSource } from "../exchange/rows/rows-source.ts";
import { type JournalEntry } from "../ledger/journal.ts";
import { journalFilter } from "../ledger/journal-filter.ts";
import { id, instant, label } from "../ground/quantity.ts";
import type { TankFit } from "../losses/fit/fit-tank.ts";
import type { LossBook } from "../losses/loss-book.ts";
import { mergeChoices } from "../merge/merge-choices.ts";
import type { MergeView } from "../merge/merge-view.ts";
import { adoptInput, fitInput, lossBookInput } from "../losses/losses-input.ts";
import { type NeededOfWay, waysAsked } from "../ways/ways-question.ts";
import type { RecordedAs } from "../records/recorded-as.ts";
import { recordInputs, recordNames } from "../records/record-input.ts";
import type { RiskAnswer, RiskCauses, RiskDifference } from "../risk/answer.ts";
import { causesAsked } from "../risk/ask-causes.ts";
import { runAsked } from "../risk/ask-risk.ts";
import type { InputInForce } from "../risk/inputs-in-force.ts";
import type { KeptRun, ListedRun, Replayed } from "../risk/kept-run.ts";
import type { ObservedInput } from "../risk/observed.ts";
import type { CureAnswer } from "../supply/cures/cure.ts";
import type { SupplyAnswer } from "../supply/answer.ts";
import { copiesOperations } from "./copies-operations.ts";
import { editInput } from "./edit.ts";
import { ledgerOperations } from "./ledger-operations.ts";
import { resupplyOperations } from "./resupply-operations.ts";
import { studyOperations } from "./study-operations.ts";
import type { EditRecord, Hello, JournalPage, LedgerInfo, PlanView, RecordPreview } from "../ledger/ledger-view.ts";
import { type Answer, command, gives, type Lane, query, question, type Question } from "./operation.ts";

/** Rises when a client of the older one would misread an answer. Compared in the handshake. */
export const CONTRACT_VERSION = 1;

const nothing = z.strictObject({});
const path = z.string().min(1).max(4096);
const planCaseId = z.strictObject({ planCaseId: id });
/** The same as of an instant of its own, whatever the ledger's is. */
const planCaseAt = planCaseId.extend({ asOfAt: instant.optional() });

const runNumber = z.strictObject({ number: z.int().min(1).max(1e9) });

/** Replications up to here are an answer that is waited for. */
const QUICK_RUNS = 8192;
const laneOf = (runs: number): Lane => (runs <= QUICK_RUNS ? "interactive" : "batch");

/** `kind` and `sheet` null: as the headings make likely. */
const rowsQuestion = z.strictObject({
  kind: z.enum(rowKinds).nullable(),
  planCaseId: id,
  source: rowsSource,
  sheet: z.string().max(200).nullable(),
  mapping: columnMapping,
  /** What is said of a calendar's times; absent: nothing yet. */
  calendar: calendarForms.optional(),
  /** Gauge readings: each is taken into the books; absent: they stand beside them. */
  bookReadings: z.boolean().optional(),
  /** Books that are not open open with the first reading of their tank, as come from this source; absent: refused. */
  openFromSourceId: id.optional(),
});

export const contract = {
  "service.hello": query(
    "Version of the contract and the program, and whether a ledger is open",
    nothing,
    gives<Hello>(),
  ),
  "job.cancel": command(
    "Stop a call that was made with a job id",
    z.strictObject({ jobId: z.string().min(1).max(80) }),
    gives<{ readonly wasRunning: boolean }>(),
  ),

  ...ledgerOperations,
  ...copiesOperations,

  "merge.preview": question(
    "What the records of another ledger of this programme would bring in, and what must be decided",
    z.strictObject({ path, ...mergeChoices }),
    gives<MergeView>(),
  ),
  "merge.take": command(
    "Bring the records of another ledger in, as one step that can be undone",
    z.strictObject({ path, ...mergeChoices, fingerprint: z.string().max(1000) }),
    gives<LedgerInfo>(),
  ),

  "plan.view": query("One plan case: the plan, the recorded past, the readings", planCaseAt, gives<PlanView>()),
  "plan.edit": command("Change the plan, as one step that can be undone", editInput, gives<LedgerInfo>()),
  "plan.undo": command("Undo the last step", nothing, gives<LedgerInfo>()),
  "plan.redo": command("Redo the step last undone", nothing, gives<LedgerInfo>()),
  "plan.history": query(
    "The steps of editing, newest first",
    z.strictObject({ offset: z.int().min(0), limit: z.int().min(1).max(1000) }),
    gives<readonly EditRecord[]>(),
  ),
  "case.copy": command(
    "A new plan case copied from another",
    z.strictObject({ fromId: id, newId: id, name: label }),
    gives<LedgerInfo>(),
  ),
  "case.remove": command("Delete a plan case with its plan", planCaseId, gives<LedgerInfo>()),

  "supply.check": question(
    "The supply check of a plan case, with slack and what each sortie hinges on",
    planCaseAt,
    gives<SupplyAnswer>(),
  ),

  "supply.cures": question(
    "What would make a short sortie fly: each cure forecast, with what it does to the whole plan",
    planCaseId.extend({ sortieId: id }),
    gives<CureAnswer>(),
  ),

  "ways.needed": question(
    "How many tanker flights each way to fly the sortie needs, way by way",
    planCaseId.extend(waysAsked.shape),
    gives<readonly NeededOfWay[]>(),
    { partial: gives<readonly NeededOfWay[]>() },
  ),

  "risk.inputs": query(
    "The uncertain inputs that hold for a plan case: stated, read or assumed",
    planCaseId,
    gives<readonly InputInForce[]>(),
  ),
  "risk.observed": query(
    "What the ledger's own records say of slips and losses, as inputs that could be stated",
    planCaseId,
    gives<readonly ObservedInput[]>(),
  ),
  "risk.run": question(
    "How likely the plan is to hold: replications with its uncertain inputs drawn",
    planCaseId.extend(runAsked.shape),
    gives<RiskAnswer>(),
    { partial: gives<RiskAnswer>(), lane: ({ runs }) => laneOf(runs) },
  ),
  "risk.causes": question(
    "What the probability hangs on: each input frozen and made certain, each flight left out, pairs of them",
    planCaseId.extend(causesAsked.shape),
    gives<RiskCauses>(),
    { partial: gives<RiskCauses>(), lane: "batch" },
  ),
  "risk.compare": question(
    "Two plan cases under the same draws: the second minus the first",
    planCaseId.extend({ compareId: id, ...causesAsked.shape }),
    gives<RiskDifference>(),
    { lane: ({ runs }) => laneOf(runs) },
  ),
  "risk.keep": command(
    "Run the risk of a plan case (or take the run that was just made) and keep it in the ledger",
    planCaseId.extend(runAsked.shape),
    gives<KeptRun>(),
  ),
  "risk.runs": query(
    "The runs that the ledger keeps, newest first, and which of them are stale",
    nothing,
    gives<readonly ListedRun[]>(),
  ),
  "risk.kept": query("One kept run's answer", runNumber, gives<RiskAnswer>()),
  "risk.delete": command("Delete a kept run", runNumber, gives<{ readonly number: number }>()),
  "risk.replay": question(
    "Run a kept run again: whether it gives the same answer to the byte",
    runNumber,
    gives<Replayed>(),
    { lane: "batch" },
  ),

  ...resupplyOperations,
  ...studyOperations,

  "record.reading": command(
    "Record a gauge reading; if it is taken into the books, the difference from the books is booked",
    recordInputs["record.reading"],
    gives<LedgerInfo>(),
  ),
  "record.withdrawReading": command(
    "Withdraw a reading found to be wrong; its booking is reversed",
    recordInputs["record.withdrawReading"],
    gives<LedgerInfo>(),
  ),
  "record.departure": command(
    "Record that a flight left, with what was loaded, and, from a depot, what each of its tanks gave",
    recordInputs["record.departure"],
    gives<LedgerInfo>(),
  ),
  "record.arrival": command(
    "Record an arrival: what each tank really took, and what was lost, left aboard or vented",
    recordInputs["record.arrival"],
    gives<LedgerInfo>(),
  ),
  "record.loss": command("Record the loss of a flight", recordInputs["record.loss"], gives<LedgerInfo>()),
  "record.loading": command(
    "Record that a lander was loaded and left",
    recordInputs["record.loading"],
    gives<LedgerInfo>(),
  ),
  "record.return": command(
    "Record that a lander came home, with what it had left",
    recordInputs["record.return"],
    gives<LedgerInfo>(),
  ),
  "record.standDown": command(
    "Record that a sortie stood down: it drew nothing and will not fly",
    recordInputs["record.standDown"],
    gives<LedgerInfo>(),
  ),
  "record.closing": command(
    "Book the boil-off of a depot up to an instant, tank by tank, from the loss model or as measured",
    recordInputs["record.closing"],
    gives<LedgerInfo>(),
  ),
  "record.entry": command(
    "Write a journal entry as it stands (opening, transfer, vent)",
    recordInputs["record.entry"],
    gives<LedgerInfo>(),
  ),
  "record.reverse": command("Reverse an entry by a second one", recordInputs["record.reverse"], gives<LedgerInfo>()),
  "record.correct": command(
    "Reverse an entry or withdraw a reading, and record what really happened, as one step",
    recordInputs["record.correct"],
    gives<LedgerInfo>(),
  ),
  "record.recorded": query(
    "A record of a flight or sortie as it was stated, from its entries: what putting it right begins with",
    z.strictObject({ entryId: id, planCaseId: id.nullable() }),
    gives<RecordedAs>(),
  ),
  "record.preview": query(
    "What a record would write, without writing it; in place of a wrong one, if one is named",
    z.strictObject({
      record: z.enum(recordNames),
      input: z.unknown(),
      wrong: recordInputs["record.correct"].shape.wrong.optional(),
    }),
    gives<RecordPreview>(),
  ),

  "journal.entry": query("One journal entry", z.strictObject({ entryId: id }), gives<JournalEntry>()),
  "journal.page": query("Journal entries by filter, newest first, with sums", journalFilter, gives<JournalPage>()),

  "losses.statement": query(
    "The loss statement by depot, propellant and month, booked beside predicted",
    lossBookInput,
    gives<LossBook>(),
  ),
  "losses.fit": question("A loss rate fitted on the gauge readings of a tank", fitInput, gives<TankFit>()),
  "losses.adopt": command("Take a fitted loss rate into the plan from a date", adoptInput, gives<LedgerInfo>()),

  "report.show": question(
    "A report as plain data: of the plan as it is now, or one that was issued",
    z.strictObject({ of: reportSubject }),
    gives<ReportModel>(),
  ),
  "report.write": question(
    "Write a report: as PDF, page, workbook or calendar; or one of its tables as CSV",
    reportRequest,
    gives<ReportFile>(),
  ),
  "report.issue": command(
    "Issue a report: it gets a number and is kept in the ledger for good, and prints byte for byte the same, always",
    z.strictObject({ choices: reportChoices, note: issueNote }),
    gives<ReportIssue>(),
  ),
  "report.issues": query("The issues that the ledger keeps, oldest first", nothing, gives<readonly ReportIssue[]>()),

  "rows.preview": question(
    "What a table or calendar would bring in: how its columns are understood, what each row changes, what is wrong",
    rowsQuestion,
    gives<RowsPreview>(),
  ),
  "rows.import": command(
    "Bring in a table or calendar: all rows, or none if any is bad, unless the good ones alone are asked for",
    rowsQuestion.extend({
      goodRowsOnly: z.boolean(),
    }),
    gives<RowsPreview>(),
  ),
  "rows.export": query(
    "Flights, sorties or readings as a table that can be brought in again: the bytes of a CSV file or a workbook, as base64",
    z.strictObject({
      kind: z.enum(rowKinds),
      planCaseId: id,
      format: z.enum(["csv", "xlsx"]),
      /** How CSV is written; not said: strictly. */
      csv: csvForm.optional(),
    }),
    gives<RowsFile>(),
  ),
} as const;

export type Contract = typeof contract;
export type OperationName = keyof Contract;
export type Input<N extends OperationName> = z.infer<Contract[N]["input"]>;
/** These name a path, so only a host may ask them; the page asks the host, which has its own way of finding the file. */
export const hostOperations = [
  "ledger.open",
  "ledger.create",
  "ledger.demo",
  "ledger.import",
  "ledger.copy",
  "copies.of",
  "copies.putBack",
  "merge.preview",
  "merge.take",
  "study.run",
  "study.take",
] as const satisfies readonly OperationName[];
/** What a page may ask. */
export type PageOperation = Exclude<OperationName, (typeof hostOperations)[number]>;
export type Output<N extends OperationName> = Contract[N]["answer"] extends Answer<infer T> ? T : never;
/** What is known so far of a question; never where it gives no partial answer. */
export type PartialAnswer<N extends OperationName> =
  Contract[N] extends Question<z.ZodType, unknown, infer P> ? P : never;
