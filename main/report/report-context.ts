/** Gathers what a report is made from: the ledger's view of the plan case, its forecast and its whole supply check. */
import type { ReportChoices, ReportContext, ReportedCase } from "../../app/report/context.ts";
import { forecast } from "../../app/forecast/forecast.ts";
import { lossBook } from "../../app/losses/loss-book.ts";
import { calendarMonthEdges } from "../../app/losses/months.ts";
import { planView } from "../../app/ledger/plan-view.ts";
import type { LedgerStore } from "../../app/ledger/store.ts";
import { check } from "../../app/supply/check.ts";

/** As many steps of editing as a report may have to tell of. */
const MOST_CHANGES = 1000;

const reported = (store: LedgerStore, planCaseId: string): ReportedCase => {
  const view = planView(store, planCaseId);
  return { view, forecast: forecast(view.plan).levels, supply: check(view.plan) };
};

/** The months that touch the period, as far as there are records. */
const lossesIn = (store: LedgerStore, planCaseId: string, { view }: ReportedCase, choices: ReportChoices) => {
  const firsts = view.past.flatMap(({ segments }) => segments.slice(0, 1).map(({ startAt }) => startAt));
  const fromAt = Math.max(choices.fromAt, Math.min(...firsts));
  const untilAt = Math.min(choices.untilAt, view.plan.asOfAt);
  if (!(fromAt < untilAt)) return null;
  return lossBook(store.entitiesOfCase(planCaseId), store, calendarMonthEdges(fromAt, untilAt), true);
};

/** Throws "not found" for a plan case that the ledger does not have. */
export const reportContext = (
  store: LedgerStore,
  planCaseId: string,
  compareId: string | null,
  choices: ReportChoices,
  issue: Pick<ReportContext, "author" | "issuedAt">,
): ReportContext => {
  const { programme, isDemonstration } = store.header();
  const main = reported(store, planCaseId);
  return {
    programme,
    isDemonstration,
    ...issue,
    issueNumber: null,
    choices,
    main,
    compared: compareId === null ? null : reported(store, compareId),
    losses: lossesIn(store, planCaseId, main, choices),
    changes: store.history(0, MOST_CHANGES).filter((step) => step.state === "done"),
  };
};
