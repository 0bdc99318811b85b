/** The views, in the order in which the list shows them: one line a view. */
import type { ComponentType } from "react";
import type { ActionId } from "../app/contract/actions.ts";
import type { ViewId } from "./state/app-state.ts";
import { CraftView } from "./craft/craft-view.tsx";
import { DepotsView } from "./depots/depots-view.tsx";
import { JournalView } from "./journal/journal-view.tsx";
import { LossesView } from "./losses/losses-view.tsx";
import { CasesView } from "./plan-cases/cases-view.tsx";
import { ResupplyView } from "./resupply/resupply-view.tsx";
import { RiskView } from "./risk/risk-view.tsx";
import { ReportsView } from "./reports/reports-view.tsx";
import { SupplyView } from "./supply/supply-view.tsx";
import { TimelineView } from "./timeline/timeline-view.tsx";

export interface View {
  readonly id: ViewId;
  readonly title: string;
  /** The action that shows it. */
  readonly action: ActionId;
  readonly component: ComponentType;
  /** Takes the inspector's place as well: nothing in it can be selected. */
  readonly isWhole?: true;
}

export const views: readonly View[] = [
  { id: "timeline", title: "Timeline", action: "view.timeline", component: TimelineView },
  { id: "supply", title: "Supply", action: "view.supply", component: SupplyView },
  { id: "resupply", title: "Resupply", action: "view.resupply", component: ResupplyView },
  { id: "risk", title: "Risk", action: "view.risk", component: RiskView },
  { id: "craft", title: "Craft", action: "view.craft", component: CraftView },
  { id: "depots", title: "Depots", action: "view.depots", component: DepotsView },
  { id: "journal", title: "Journal", action: "view.journal", component: JournalView },
  { id: "cases", title: "Plan cases", action: "view.cases", component: CasesView },
  { id: "losses", title: "Losses", action: "view.losses", component: LossesView },
  { id: "reports", title: "Reports", action: "view.reports", component: ReportsView, isWhole: true },
];
