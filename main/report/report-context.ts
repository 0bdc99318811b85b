/** Gathers what a report is made from: the ledger's view of the plan case, its forecast and its whole supply check. */
import type { ReportChoices, ReportContext, ReportedCase } from "../../app/report/context.ts";
import { forecast } from "../../app/forecast/forecast.ts";
import { planView } from "../../app/ledger/plan-view.ts";
import type { LedgerStore } from "../../app/ledger/store.ts";
import { check } from "../../app/supply/check.ts";

/** As many steps of editing as a report may have to tell of. */
const MOST_CHANGES = 1000;

const reported = (store: LedgerStore, planCaseId: string): ReportedCase => {
  const view = planView(store, planCaseId);
  return { view, forecast: forecast(view.plan).levels, supply: check(view.plan) };
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
  return {
    programme,
    isDemonstration,
    ...issue,
    issueNumber: null,
    choices,
    main: reported(store, planCaseId),
    compared: compareId === null ? null : reported(store, compareId),
    changes: store.history(0, MOST_CHANGES).filter((step) => step.state === "done"),
  };
};
