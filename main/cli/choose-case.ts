/** Finds the plan case that a person means by id or name. */
import { PlanningError } from "../../app/ground/failure.ts";
import type { LedgerInfo } from "../../app/ledger/ledger-view.ts";
import type { Entity } from "../../app/entity/entities.ts";

/** Without a name: the first of the list. Throws "not found", naming those there are. */
export const chooseCase = (ledger: LedgerInfo, wanted: string | undefined): Entity<"planCase"> => {
  const { planCases } = ledger;
  const found = wanted === undefined ? planCases[0] : planCases.find((row) => row.id === wanted || row.name === wanted);
  if (found !== undefined) return found;
  if (planCases.length === 0) throw new PlanningError("not found", "This ledger has no plan case.");
  const names = planCases.map((row) => row.name).join(", ");
  throw new PlanningError("not found", `There is no plan case "${wanted}". There are: ${names}.`, "--case");
};
