/** The studies that a ledger keeps: whether each is still of the plan as it is, and those that a report tells of. */
import type { LedgerStore } from "../../app/contract/store.ts";
import { PlanningError } from "../../app/ground/failure.ts";
import type { AskedChoices } from "../../app/ledger/report-request.ts";
import type { ReportedStudy } from "../../app/report/context.ts";
import { STUDIES_ID, STUDIES_SHOWN } from "../../app/report/section/studies.ts";
import type { ListedStudy } from "../../app/study/kept-study.ts";
import product from "../../package.json" with { type: "json" };
import { riskHashNow } from "./risk-base.ts";

/** All of them, the newest first. */
export const listedStudies = (store: LedgerStore): readonly ListedStudy[] =>
  store.studies().map((study) => ({
    ...study,
    isStale: study.program !== product.version || study.planHash !== riskHashNow(store, study.planCaseId),
  }));

/** What cannot be read is said in the report, not refused with it. */
const read = (store: LedgerStore, study: ListedStudy): ReportedStudy => {
  try {
    return { study, answer: store.study(study.number).answer, cannot: null };
  } catch (error) {
    if (error instanceof PlanningError) return { study, answer: null, cannot: error.message };
    throw error;
  }
};

/** Those of the plan case, the newest first; none where no section tells of them. */
export const reportedStudies = (
  store: LedgerStore,
  { planCaseId, sectionIds }: AskedChoices,
): readonly ReportedStudy[] =>
  sectionIds === null || sectionIds.includes(STUDIES_ID)
    ? listedStudies(store)
        .filter((study) => study.planCaseId === planCaseId)
        .map((study, index) => (index < STUDIES_SHOWN ? read(store, study) : { study, answer: null, cannot: null }))
    : [];
