/** Makes the finished report from what was read of the ledger. Pure: the same inputs give the same report. */
import { PlanningError } from "../ground/failure.ts";
import { forecast } from "../forecast/forecast.ts";
import { lookBackSentence } from "../ledger/look-back-words.ts";
import type { TankFitQuestion } from "../losses/fit/fit-question.ts";
import { fitTank } from "../losses/fit/fit-tank.ts";
import { buildReport } from "./build.ts";
import type { CheckedCase, ReportContext, ReportedFit, ReportInputs, ReportedCase } from "./context.ts";
import type { FinishedReport } from "./finished.ts";
import { watchList } from "../supply/watch.ts";
import { planToCalendar } from "./format/calendar.ts";

const reported = (checked: CheckedCase): ReportedCase => ({ ...checked, forecast: forecast(checked.view.plan).levels });

/** What cannot be fitted is said in the report, not refused with it. */
const measured = (question: TankFitQuestion): ReportedFit => {
  const { tankId } = question.request;
  try {
    return { tankId, fit: fitTank(question), cannot: null };
  } catch (error) {
    if (error instanceof PlanningError) return { tankId, fit: null, cannot: error.message };
    throw error;
  }
};

/** `inputHash`: SHA-256 of {@link hashedInputs}. Throws "invalid input" as {@link buildReport} does. */
export const finishReport = (inputs: ReportInputs, inputHash: string): FinishedReport => {
  const main = reported(inputs.main);
  const { fitQuestions, ...read } = inputs;
  const context: ReportContext = {
    ...read,
    fits: fitQuestions.map(measured),
    main,
    compared: inputs.compared && reported(inputs.compared),
    inputHash,
  };
  const { verdict } = main.supply;
  const lookBack = lookBackSentence(main.view.plan);
  return {
    report: buildReport(context),
    calendar: planToCalendar(main.view.plan, main.supply.sorties, {
      heading: [...(lookBack === null ? [] : [lookBack]), `${verdict.word}: ${verdict.sentence}`],
      unsound: verdict.word === "No verdict" ? verdict.sentence : null,
      stampAt: inputs.issuedAt,
      revision: main.view.revision,
      ledgerId: inputs.ledgerId,
      calledOff: inputs.calledOff,
      hasWindows: inputs.choices.departureWindows === true,
      ...(inputs.choices.leaveBy === true
        ? { leaveBy: main.supply.latestDeparture, watch: watchList(main.view.plan, main.supply, null) }
        : {}),
    }),
    sorties: main.supply.sorties.map(({ sortieKey, name, status }) => ({ key: sortieKey, name, status })),
  };
};

/**
 * The text whose SHA-256 says what a report was made from: plan, records and choices, not who made it, when, and as which
 * issue. Two reports with one hash are made from the same.
 */
export const hashedInputs = ({ programme, choices, main, compared, losses, risk, studies }: ReportInputs): string =>
  JSON.stringify([
    programme,
    choices,
    [main.view.plan, main.view.past, main.view.readings],
    compared && [compared.view.plan, compared.view.past, compared.view.readings],
    losses && losses.statements,
    // A run follows from the plan, the readings and these.
    risk && [risk.answer.seed, risk.answer.kernelVersion, risk.answer.replications, risk.runNumber],
    // Left out where there is none, so that the hash of a report stays what it was.
    ...(studies.length === 0 ? [] : [studies.map(({ study }) => [study.number, study.answerHash, study.isStale])]),
  ]);
