/** Everything that the page holds; the one type that views read from. */
import type { Run } from "./run.ts";
import type { ActionId } from "../../app/contract/actions.ts";
import type { HeldFile } from "../../app/contract/bridge.ts";
import type { Failure } from "../../app/ground/failure.ts";
import type { LedgerInfo } from "../../app/ledger/ledger-view.ts";
import type { EntityKind } from "../../app/entity/entities.ts";
import type { SupplyGlance } from "../../app/supply/answer.ts";
import type { MassUnit } from "../format/mass.ts";
import type { ThemeChoice } from "../theme/theme-choice.ts";
import type { CaseForecast } from "./case-forecast.ts";
import type { InspectorChoice } from "./inspector-choice.ts";
import type { Asked } from "./asked.ts";
import { NO_FILTER, type PlanFilter } from "./plan-filter.ts";
import type { Trial } from "./supposed-plan.ts";

/** What the inspector shows. */
export interface Selection {
  readonly kind: EntityKind | "entry" | "reading";
  readonly id: string;
}

/** A flight or sortie among several that are selected. */
export interface ManyRef {
  readonly kind: "flight" | "sortie";
  readonly id: string;
}

/** The stretch of time that the timeline shows. */
export interface TimeWindow {
  readonly fromAt: number;
  readonly untilAt: number;
}

/** Something told to the person; stays until dismissed, or for a while if it is only information. */
export interface Notice {
  readonly id: number;
  readonly tone: "information" | "warning" | "failure";
  readonly words: string;
}

/** A question asked in a dialog: the action that asks it, and what it is about. */
export interface DialogRequest {
  readonly action: ActionId;
  readonly subject: Selection | null;
  /** An instant that was pointed at. */
  readonly at: number | null;
  /** A file that was dropped for it; absent: none. */
  readonly file?: HeldFile;
}

/** Long work that the status line lists. */
export interface RunningWork extends Run {
  readonly jobId: string;
  readonly title: string;
}

export type ViewId =
  | "timeline"
  | "supply"
  | "watch"
  | "resupply"
  | "risk"
  | "study"
  | "depots"
  | "craft"
  | "journal"
  | "cases"
  | "losses"
  | "reports";

export interface AppState {
  /** starting: asking the service; none: no ledger is open; ready: `ledger` is there; failed: the service does not answer. */
  readonly phase: "starting" | "none" | "ready" | "failed";
  /** Why, when the phase is "failed". */
  readonly failure: Failure | null;
  readonly ledger: LedgerInfo | null;
  readonly planCaseId: string | null;
  readonly compareCaseId: string | null;
  /** The current plan case with its forecast; null while it is being fetched. */
  readonly current: CaseForecast | null;
  readonly compare: CaseForecast | null;
  /** Whether the ledger is shown to others: nothing of it can be changed from this window. */
  readonly isShownOnly: boolean;
  /** What is supposed over the saved plan; null: nothing, and `current` is what is saved. */
  readonly trial: Trial | null;
  /** Statuses and verdict of what is held in the hand just now; null: nothing is. */
  readonly held: SupplyGlance | null;
  readonly view: ViewId;
  /** The one selected, or the last of several. */
  readonly selection: Selection | null;
  /** Two or more that are selected together; empty: one or none is. */
  readonly many: readonly ManyRef[];
  readonly inspector: InspectorChoice;
  readonly isTimelineTable: boolean;
  /** Whether the level charts show where the runs of the risk lie. */
  readonly isWithBands: boolean;
  /** The depot whose levels are shown; null: the first. */
  readonly depotId: string | null;
  /** Whether the timeline shows every depot, one below the other, on one time axis. */
  readonly areAllDepots: boolean;
  /** Which flights and sorties the timeline and its tables show. */
  readonly filter: PlanFilter;
  readonly isFilterOpen: boolean;
  /** null: the whole campaign. */
  readonly timeWindow: TimeWindow | null;
  readonly massUnit: MassUnit;
  readonly theme: ThemeChoice;
  readonly notices: readonly Notice[];
  readonly dialog: DialogRequest | null;
  readonly work: readonly RunningWork[];
  /** Questions of the page by who asks. */
  readonly asked: Readonly<Record<string, Asked>>;
  /** What the live region says: consequences of a step. */
  readonly announcement: string;
}

export const initialState: AppState = {
  phase: "starting",
  failure: null,
  ledger: null,
  planCaseId: null,
  compareCaseId: null,
  current: null,
  compare: null,
  isShownOnly: false,
  trial: null,
  held: null,
  view: "timeline",
  selection: null,
  many: [],
  inspector: "auto",
  isTimelineTable: false,
  isWithBands: true,
  depotId: null,
  areAllDepots: false,
  filter: NO_FILTER,
  isFilterOpen: false,
  timeWindow: null,
  massUnit: "auto",
  theme: "system",
  notices: [],
  dialog: null,
  work: [],
  asked: {},
  announcement: "",
};
