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
import { StudyView } from "./study/study-view.tsx";
import { SupplyView } from "./supply/supply-view.tsx";
import { TimelineView } from "./timeline/timeline-view.tsx";
import { WatchView } from "./watch/watch-view.tsx";

export interface View {
  readonly id: ViewId;
  readonly title: string;
  /** The action that shows it. */
  readonly action: ActionId;
  readonly component: ComponentType;
  /** Takes the inspector's place as well: nothing in it can be selected. */
  readonly isWhole?: true;
}

/** A view that the state may name and that has no line here does not compile. */
const viewOf: { readonly [V in ViewId]: Omit<View, "id"> } = {
  timeline: { title: "Timeline", action: "view.timeline", component: TimelineView },
  supply: { title: "Supply", action: "view.supply", component: SupplyView },
  watch: { title: "Watch", action: "view.watch", component: WatchView },
  resupply: { title: "Resupply", action: "view.resupply", component: ResupplyView },
  risk: { title: "Risk", action: "view.risk", component: RiskView },
  study: { title: "Study", action: "view.study", component: StudyView },
  craft: { title: "Craft", action: "view.craft", component: CraftView },
  depots: { title: "Depots", action: "view.depots", component: DepotsView },
  journal: { title: "Journal", action: "view.journal", component: JournalView },
  cases: { title: "Plan cases", action: "view.cases", component: CasesView },
  losses: { title: "Losses", action: "view.losses", component: LossesView },
  reports: { title: "Reports", action: "view.reports", component: ReportsView, isWhole: true },
};

export const views: readonly View[] = (Object.keys(viewOf) as ViewId[]).map((id) => ({ id, ...viewOf[id] }));
