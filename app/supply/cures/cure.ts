/** What would make a short sortie fly: each cure with the changes that it takes and the forecast that it leads to. */
import type { Change } from "../../entity/entities.ts";
import type { SortieSupply, Verdict } from "../answer.ts";

/** How one sortie fares. */
export type SortieFate = Pick<
  SortieSupply,
  "sortieId" | "name" | "plannedAt" | "loadedAt" | "status" | "outcome" | "firstPossibleAt"
>;

/** What a plan comes to, from the as-of instant to the horizon. Masses of all propellants, kg. */
export interface Outlook {
  readonly verdict: Verdict["word"];
  readonly sorties: readonly SortieFate[];
  /** Flights ahead: planned, firm and on their way. */
  readonly flights: number;
  readonly deliveredKg: number;
  /** Boiled off in tanks and in flight, lost in handovers, and vented because it did not fit. */
  readonly lostKg: number;
}

export type CureKind = "wait" | "move" | "other way" | "one more flight" | "other order";

export interface Cure {
  /** Tells cures of one answer apart. */
  readonly id: string;
  readonly kind: CureKind;
  /** What is done, as a sentence. */
  readonly words: string;
  /** As one step of editing. */
  readonly changes: readonly Change[];
  /** With it the sortie flies. */
  readonly isCured: boolean;
  /** Other sorties that fare better, and worse, than in the plan as it is. */
  readonly betterIds: readonly string[];
  readonly worseIds: readonly string[];
  /** What breaks the plan then and does not now; sentences. */
  readonly newBreaks: readonly string[];
  /** What it takes for granted; null: nothing that the plan does not state. */
  readonly caution: string | null;
  readonly outlook: Outlook;
}

export interface CureAnswer {
  readonly sortieId: string;
  /** The plan as it is. */
  readonly now: Outlook;
  /** Those that cure first; of these by harm to the plan, to others and to the reserve, then flights and mass lost. */
  readonly cures: readonly Cure[];
}
