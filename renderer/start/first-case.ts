/** The plan case with which an empty ledger begins. */
import type { LedgerInfo } from "../../app/ledger/ledger-view.ts";
import type { PlanCase } from "../../app/entity/plan-case.ts";
import { DAY_MS } from "../../app/ground/quantity.ts";
import type { Session } from "../state/session.ts";

/** Five years from the as-of date: a campaign and what follows it. */
const HORIZON_DAYS = 1826;

export const firstCase = ({ asOfAt }: Pick<LedgerInfo, "asOfAt">): PlanCase => ({
  id: "baseline",
  name: "Baseline",
  basedOnId: null,
  shortPolicy: "stand down",
  horizonAt: asOfAt + HORIZON_DAYS * DAY_MS,
  position: 0,
  note: "",
});

/** Makes it, in a ledger that has none. */
export const beginPlan = async (session: Session): Promise<void> => {
  const { ledger } = session.store.get();
  if (ledger === null || ledger.planCases.length > 0 || ledger.readOnlyBecause !== null) return;
  await session.edit("Begin the plan", [{ op: "put", kind: "planCase", value: firstCase(ledger) }]);
};
