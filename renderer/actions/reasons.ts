/** Why an action cannot be done that nothing on screen carries out: the view or the selection that it belongs to is not there. */
import type { ActionId } from "../../app/contract/actions.ts";

/** Where no ledger is open. */
export const NO_LEDGER = "No ledger is open.";

const reasons: Partial<Readonly<Record<ActionId, string>>> = {
  "edit.duplicate": "Select a flight, a sortie or another thing of the plan first.",
  "edit.delete": "Select a flight, a sortie or another thing of the plan first.",
  "losses.print": "Show Losses first: what is there is printed.",
  "resupply.print": "Show Resupply and find a plan first: the proposal is printed.",
  "plan.check": "Show Supply first: the check is made there.",
  "view.table": "Show the timeline first.",
  "view.bands": "Show the timeline first.",
  "view.wholeCampaign": "Show the timeline first.",
};

export const reasonWithoutHandler = (id: ActionId): string => reasons[id] ?? NO_LEDGER;
