/** The answer of the resupply search, as plain data. */
import type { Entity } from "../entity/entities.ts";
import type { Estimate } from "../risk/answer.ts";
import type { PlanFinding } from "../supply/answer.ts";

/** What is ruled out, and the best that was found, in the measure of `least` (flights or cost). */
export interface ResupplyBracket {
  /** Fewer (cheaper) is impossible; null: nothing holds at all. */
  readonly lower: number | null;
  /** null: no plan so far. */
  readonly upper: number | null;
}

/** One flight of the proposal, or one of the plan that goes. */
export interface FlightChange {
  readonly kind: "added" | "kept" | "left out";
  readonly flight: Entity<"flight">;
  readonly classId: string;
  /** The first sortie that would not be held without it, and what that would lack; null: none hangs on it alone. */
  readonly isFor: { readonly sortieId: string; readonly propellantId: string; readonly missingKg: number } | null;
}

/** A sortie at another date. */
export interface SortieMoved {
  readonly sortieId: string;
  readonly loadAt: number;
  readonly returnAt: number;
}

/** What a plan comes to. */
export interface PlanSums {
  /** Flights to come that are planned, firm or proposed, and those on their way. */
  readonly flights: number;
  /** Of flights not yet departed; null: not stated for some class. */
  readonly cost: number | null;
  /** Boiled off from the tanks of depots and landers, and vented, kg. */
  readonly lostKg: number;
  /** Sorties still to load that are held, of so many. */
  readonly held: number;
  readonly sorties: number;
}

/** What no flight within the limits can hold. */
export interface Unheld {
  readonly sortieId: string;
  readonly propellantId: string | null;
  /** kg short with the goal kept, at the best; 0: its lander is away. */
  readonly missingKg: number;
  readonly why: "lander away" | "maximum fill" | "flights";
  /** "maximum fill": what the depot's tanks can give when full, and what the goal asks of them. kg */
  readonly fullKg?: number;
  readonly neededKg?: number;
}

/** One least change that would let everything hold, confirmed by a search of its own. */
export type Cure =
  | { readonly kind: "later sortie"; readonly sortieId: string; readonly days: number }
  | { readonly kind: "tank"; readonly depotId: string; readonly propellantId: string; readonly massKg: number }
  | { readonly kind: "port"; readonly depotId: string; readonly ports: number }
  | { readonly kind: "turnaround"; readonly classId: string; readonly days: number }
  | { readonly kind: "hull"; readonly classId: string; readonly hulls: number }
  | { readonly kind: "flights"; readonly most: number }
  | { readonly kind: "budget"; readonly most: number };

/** A limit that, lifted alone, would let everything hold; of which depot or class, where it is of one. */
export interface Binding {
  readonly kind:
    | "flights"
    | "budget"
    | "blackouts"
    | "windows"
    | "cadence"
    | "ports"
    | "tank room"
    | "hulls"
    | "turnaround";
  readonly ownerId: string | null;
}

/** How likely plans are that hold with so many of the flights lost, as the risk run judges them. */
export interface Judged {
  readonly lost: 0 | 1 | 2;
  readonly flights: number;
  /** All sorties fly when planned. */
  readonly share: Estimate;
  readonly replications: number;
}

export interface ChanceAnswer {
  readonly asked: number;
  /** In the order tried; the last is of the plan that is shown. */
  readonly judged: readonly Judged[];
  /** The lower end of the 95 % interval is at least what was asked. */
  readonly isReached: boolean;
}

export interface ResupplyAnswer {
  /** plan: every sortie is held; partly: the proposal holds what can be held; none: no proposal. */
  readonly standing: "plan" | "partly" | "none";
  readonly measure: "flights" | "cost";
  readonly bracket: ResupplyBracket;
  readonly isProved: boolean;
  /** Least loss was asked: the bracket of what is lost of the propellants that sorties draw, and whether it is proved. */
  readonly loss: { readonly lowerKg: number; readonly upperKg: number; readonly isProved: boolean } | null;
  /** Nobody waited any longer: the best so far. */
  readonly isStopped: boolean;
  /** Instants at which flights were looked at, and lanes: what the proof is about. */
  readonly instants: number;
  /** Whether flights between depots were looked at; null: there is no other depot. */
  readonly isBetweenDepots: boolean | null;
  readonly goal: "supplied" | "flies";
  /** What was to be kept above the reserve; everything that is said to be held is held with it. */
  readonly margins: readonly { readonly propellantId: string; readonly massKg: number }[];
  readonly lost: 0 | 1 | 2;
  /** null: no probability was asked. */
  readonly chance: ChanceAnswer | null;
  readonly changes: readonly FlightChange[];
  /** Sorties that the proposal moves; all that is said of it is said of these dates. */
  readonly sortiesMoved: readonly SortieMoved[];
  /** Days by which they might; 0: not at all. */
  readonly moveSortiesDays: number;
  /** Hulls that the added flights fly and the plan does not have. */
  readonly craft: readonly Entity<"craft">[];
  readonly present: PlanSums;
  readonly proposed: PlanSums | null;
  /** Where the proposal is nearest to its limit. */
  readonly tightest: { readonly sortieId: string; readonly propellantId: string; readonly marginKg: number } | null;
  readonly unheld: readonly Unheld[];
  /** What firm flights ask for at once and cannot have; no proposal mends it. */
  readonly contradictions: readonly PlanFinding[];
  /** Where not everything is held: the limits that bind. */
  readonly binds: readonly Binding[];
  readonly cures: readonly Cure[];
}
