/** The views, in the order in which the list shows them: one line a view. */
import type { ComponentType } from "react";
import type { ActionId } from "../app/contract/actions.ts";
import type { ViewId } from "./state/app-state.ts";
import { TimelineView } from "./timeline/timeline-view.tsx";

export interface View {
  readonly id: ViewId;
  readonly title: string;
  /** The action that shows it. */
  readonly action: ActionId;
  readonly component: ComponentType;
}

export const views: readonly View[] = [
  { id: "timeline", title: "Timeline", action: "view.timeline", component: TimelineView },
];
