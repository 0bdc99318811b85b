/** The plan case with which an empty ledger begins, and what an outline puts into it. */
import type { LedgerInfo } from "../../app/ledger/ledger-view.ts";
import type { PlanCase } from "../../app/entity/plan-case.ts";
import { DAY_MS } from "../../app/ground/quantity.ts";
import type { Session } from "../state/session.ts";
import { outlineStep } from "./outline-step.ts";
import type { Outline } from "./outline.ts";

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

/** Puts what an outline names into a ledger that has just been begun, as one step; answers what was refused, in words. */
export const beginOutline = async (session: Session, outline: Outline): Promise<string | null> => {
  const [planCase] = session.store.get().ledger?.planCases ?? [];
  if (planCase === undefined) return "The ledger has no plan case to begin with.";
  const { changes, openings } = outlineStep(outline, planCase.id);
  const horizonAt = (outline.beginsAt ?? 0) + HORIZON_DAYS * DAY_MS;
  const reply = await session.command("plan.edit", {
    label: "Begin with a depot, a lander and tankers",
    reason: "",
    changes: [{ op: "put", kind: "planCase", value: { ...planCase, horizonAt } }, ...changes],
    ...(openings.length === 0 ? {} : { openings: [...openings] }),
  });
  return reply.ok ? null : reply.failure.message;
};
