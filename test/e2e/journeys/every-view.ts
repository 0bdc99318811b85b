/** The views that are looked at one by one: their action, their title, and a name for the picture. */
import type { ActionId } from "../../../app/contract/actions.ts";

export interface LookedAt {
  readonly action: ActionId;
  readonly title: string;
  readonly picture: string;
}

export const everyView: readonly LookedAt[] = [
  { action: "view.timeline", title: "Timeline", picture: "timeline" },
  { action: "view.supply", title: "Supply", picture: "supply" },
  { action: "view.watch", title: "Watch", picture: "watch" },
  { action: "view.resupply", title: "Resupply", picture: "resupply" },
  { action: "view.risk", title: "Risk", picture: "risk" },
  { action: "view.study", title: "Study", picture: "study" },
  { action: "view.craft", title: "Craft", picture: "craft" },
  { action: "view.depots", title: "Depots", picture: "depots" },
  { action: "view.journal", title: "Journal", picture: "journal" },
  { action: "view.cases", title: "Plan cases", picture: "plan-cases" },
  { action: "view.losses", title: "Losses", picture: "losses" },
  { action: "view.reports", title: "Reports", picture: "reports" },
];
