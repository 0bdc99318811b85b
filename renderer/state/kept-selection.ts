/** What stays selected when the plan changes: what is still in it. */
import { entityKinds } from "../../app/entity/entities.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { findRow } from "../names/entity-words.ts";
import type { Selection } from "./app-state.ts";

/** The selection, or null where what it names is not in the plan any more. Records and cases are not of the plan. */
export const keptSelection = (selection: Selection | null, plan: PlanSnapshot | null): Selection | null => {
  const kind = entityKinds.find((known) => known === selection?.kind);
  if (selection === null || plan === null || kind === undefined || kind === "planCase") return selection;
  return findRow(plan, kind, selection.id) === undefined ? null : selection;
};
