/** Reports: shown, written as files, and issued, which keeps them in the ledger. */
import type { OperationName } from "../../../app/contract/contract.ts";
import { missingCase } from "../../../app/ground/missing-case.ts";
import { PlanningError } from "../../../app/ground/failure.ts";
import { issuesBeside } from "../../../app/report/beside/beside.ts";
import { type FinishedReport, finishedText, parseFinished } from "../../../app/report/finished.ts";
import { onPaper } from "../../../app/report/format/on-paper.ts";
import type { AskedChoices, ReportSubject } from "../../../app/ledger/report-request.ts";
import { type Making, reportInputs } from "../../report/report-inputs.ts";
import type { Context, HandlersOf } from "../context.ts";
import { reportedRisk } from "../reported-risk.ts";
import { reportedStudies } from "../reported-studies.ts";
import { ask } from "../work/ask.ts";

/** Of a report's time, the check takes the first part, the risk the next. */
const CHECK_SHARE = 0.25;
const RISK_SHARE = 0.35;

/** The same call, of whose whole progress the next computation is the part between two shares. */
const sharing = (context: Context, from: number, until: number): Context => ({
  ...context,
  progress: ({ share, ...rest }) =>
    context.progress({ ...rest, share: share === null ? null : from + share * (until - from) }),
});

const make = async (context: Context, asked: AskedChoices, making: Making): Promise<FinishedReport> => {
  const checking = sharing(context, 0, CHECK_SHARE);
  const inputs = await reportInputs(context.ledger.store(), asked, making, {
    check: ({ plan }) => ask(checking, "supply.check", plan, null),
    risk: reportedRisk(sharing(context, CHECK_SHARE, RISK_SHARE), asked),
    studies: () => reportedStudies(context.ledger.store(), asked),
  });
  context.progress({ share: RISK_SHARE, words: "Making the report" });
  return await ask(context, "report.make", null, inputs);
};

const draft = ({ environment }: Context): Making => ({
  author: environment.author(),
  issuedAt: environment.now(),
  issueNumber: null,
  note: "",
});

/** What was issued is taken from the ledger as it was finished then; nothing of it is computed again. */
const finishedOf = async (context: Context, of: ReportSubject): Promise<FinishedReport> => {
  const kept = (number: number): FinishedReport => parseFinished(context.ledger.store().reportIssue(number).content);
  switch (of.kind) {
    case "issue":
      return kept(of.number);
    case "beside": {
      const [earlier = of.number, later = of.number] = [of.number, of.against].toSorted((a, b) => a - b);
      return issuesBeside(kept(earlier), kept(later), draft(context));
    }
    case "draft":
      return await make(context, of.choices, draft(context));
    default:
      return missingCase(of);
  }
};

export const reportHandlers: HandlersOf<Extract<OperationName, `report.${string}`>> = {
  "report.show": async ({ of }, context) => onPaper((await finishedOf(context, of)).report),
  "report.write": async ({ of, form, tableId, csv }, context) => {
    const finished = await finishedOf(context, of);
    return await ask(sharing(context, RISK_SHARE, 1), "report.write", null, { finished, form, tableId, csv });
  },
  "report.issues": (_input, { ledger }) => ledger.store().reportIssues(),
  "report.issue": async ({ choices, note }, context) => {
    const store = context.ledger.store();
    const number = store.reportIssues().length + 1;
    const lastStepId = store.newestStepId();
    const making = { ...draft(context), issueNumber: number, note };
    const finished = await make(context, choices, making);
    const content = finishedText(finished);
    // What cannot be read back must not be kept.
    const { report } = parseFinished(content);
    if (context.ledger.store() !== store)
      throw new PlanningError("cancelled", "Another ledger was opened meanwhile. Nothing was issued.");
    return store.keepReportIssue({
      number,
      issuedAt: report.issuedAt,
      author: report.author,
      note,
      planCaseId: choices.planCaseId,
      caseName: report.caseName,
      choices,
      inputHash: report.inputHash,
      content,
      lastStepId,
    });
  },
};
