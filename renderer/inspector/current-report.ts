/** The supply report, if it is of the plan case and revision on screen. */
import type { AppState } from "../state/app-state.ts";
import type { SupplyReport } from "../../app/supply/report.ts";

export const currentReport = (state: AppState): SupplyReport | null => {
  const { report, ledger, planCaseId } = state;
  return report.phase === "ready" && report.planCaseId === planCaseId && report.revision === ledger?.revision
    ? report.report
    : null;
};
