/** What a report says of the risk: the kept run of the plan as it is now, else a quick answer; with another case beside it, their difference. */
import { PlanningError } from "../../app/ground/failure.ts";
import type { ReportedRisk } from "../../app/report/context.ts";
import type { AskedChoices } from "../../app/ledger/report-request.ts";
import { isRiskThere } from "../../app/risk/ask-risk.ts";
import type { Context } from "./context.ts";
import { currentRun, riskBaseOf, riskPairOf } from "./risk-base.ts";
import { ask } from "./work/ask.ts";

/** Enough for one percentage point: the quick answer of the window, found again where it has just been given. */
const QUICK = { seed: 1, runs: 4096, untilError: null, detail: "full" } as const;

/** Sections that say something of it. */
const TELLING: readonly string[] = ["verdict", "risk", "timeline"];

/**
 * Reads the ledger at once; what it returns may be asked later. The answer is null where no sortie is ahead, or no section
 * tells of it. Throws "cancelled" where it was stopped: half a run is no part of a report.
 */
export const reportedRisk = (context: Context, asked: AskedChoices): (() => Promise<ReportedRisk | null>) => {
  const store = context.ledger.store();
  const base = riskBaseOf(store, asked.planCaseId);
  const other = asked.compareId === null ? null : riskBaseOf(store, asked.compareId);
  const isTold = asked.sectionIds === null || asked.sectionIds.some((id) => TELLING.includes(id));
  if (!isTold || !isRiskThere(base.plan)) return () => Promise.resolve(null);
  const kept = currentRun(store, asked.planCaseId);
  const keptAnswer = kept === null ? null : store.riskRun(kept.number).answer;
  return async () => {
    const answer = keptAnswer ?? (await ask(context, "risk.run", base, QUICK));
    if (answer.end === "stopped" && keptAnswer === null)
      throw new PlanningError("cancelled", "The report was stopped before it was made.");
    const difference =
      other === null || !isRiskThere(other.plan)
        ? null
        : await ask(context, "risk.compare", riskPairOf(other, base), { seed: answer.seed, runs: QUICK.runs });
    return { answer, runNumber: kept?.number ?? null, difference };
  };
};
