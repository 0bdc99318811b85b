/** The five steps of the first tour: a view each, and what to look at in it. */
import type { ViewId } from "../state/app-state.ts";

export interface TourStep {
  readonly view: ViewId;
  readonly title: string;
  readonly words: string;
}

export const tourSteps: readonly TourStep[] = [
  {
    view: "timeline",
    title: "The plan on one axis",
    words:
      "Flights, sorties and the level of each propellant. Drag a flight: curves and statuses follow, and nothing is kept until you let go.",
  },
  {
    view: "supply",
    title: "Will each sortie be fuelled?",
    words:
      "Supplied, thin or short, with the margin, the propellant that limits and the flights it hinges on. Below a short one stand its cures.",
  },
  {
    view: "journal",
    title: "What really happened",
    words:
      "Arrivals, loadings and gauge readings are recorded from the Record menu. Every posting stands here; nothing is ever deleted.",
  },
  {
    view: "losses",
    title: "What was lost",
    words: "Month by month, measured beside predicted. A rate that the readings show can be adopted from a date.",
  },
  {
    view: "reports",
    title: "On paper",
    words:
      "One report from the plan case, printed or saved. Help, New ledger and Undo are in the menus; F1 explains each view.",
  },
];
