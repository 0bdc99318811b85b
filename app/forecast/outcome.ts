/** What the forecast says will happen: per flight, per sortie, per tank and per propellant, as plain data. Masses in kg. */
import type { CompiledPlan } from "./compiled-plan.ts";
import type { LevelHistory } from "../storage/segment.ts";

export interface TankAmount {
  readonly tankId: string;
  readonly massKg: number;
}

/** So much flowed into a tank, evenly, from one instant to another. */
export interface TankFlow extends TankAmount {
  readonly fromAt: number;
  readonly untilAt: number;
}

/**
 * One propellant of one flight. loaded = in-flight loss + residual + chilldown + handover loss + taken + left, where
 * left is kept aboard or vented. Drawn at its depot of origin = loaded + originChilldown + originLoss.
 */
export interface FlightLineForecast {
  readonly propellantId: string;
  readonly loadedKg: number;
  /** Drawn where it comes from, if that is a depot, tank by tank. */
  readonly drawn: readonly TankAmount[];
  readonly originChilldownKg: number;
  readonly originLossKg: number;
  /** Planned load that its depot could not give. */
  readonly missingKg: number;
  readonly inFlightLossKg: number;
  readonly residualKg: number;
  readonly offeredKg: number;
  readonly chilldownKg: number;
  readonly handoverLossKg: number;
  readonly taken: readonly TankAmount[];
  /** A metered handover tank by tank, as even flows one after the other; empty: at once. */
  readonly course: readonly TankFlow[];
  readonly keptAboardKg: number;
  readonly ventedKg: number;
  /** End of the handover; a metered one takes time. null: it does not arrive before the horizon. */
  readonly untilAt: number | null;
}

export interface FlightForecast {
  readonly flightId: string;
  readonly departAt: number;
  readonly arriveAt: number;
  /** Arrives before the horizon. */
  readonly arrives: boolean;
  /** Should have departed, or arrived, before the as-of instant, and no record says so: taken to have gone as planned. */
  readonly isOverdue: boolean;
  readonly lines: readonly FlightLineForecast[];
}

/** One propellant of one sortie. The first three at the planned loading, the rest at the actual one. */
export interface SortieLineForecast {
  readonly propellantId: string;
  readonly availableKg: number;
  readonly requiredKg: number;
  /** Available − required − (reserve above heel, where something is drawn). */
  readonly marginOverReserveKg: number;
  readonly status: "supplied" | "thin" | "short";
  readonly aboardKg: number;
  readonly drawn: readonly TankAmount[];
  readonly chilldownKg: number;
  readonly handoverLossKg: number;
  /** Aboard at departure; 0 when it stands down. */
  readonly loadedKg: number;
  /** Of it, what the sortie does not need: it stays aboard, and is among what comes home. Carrying it is not counted. */
  readonly surplusKg: number;
  readonly returnedKg: number;
}

export interface SortieForecast {
  readonly sortieId: string;
  readonly plannedAt: number;
  /** null: it stands down, or has left already. */
  readonly loadedAt: number | null;
  /** null: not before the horizon. */
  readonly returnAt: number | null;
  readonly status: "supplied" | "thin" | "short";
  readonly outcome: "flies" | "waits and flies" | "stands down";
  /** Its lander was away at the planned loading. */
  readonly landerIsAway: boolean;
  /** Left before the as-of instant: only its return is forecast. */
  readonly isOut: boolean;
  readonly lines: readonly SortieLineForecast[];
}

/** Where one propellant came from and went, over the whole forecast: opening + recorded + in = out + closing. */
export interface PropellantBalance {
  readonly propellantId: string;
  readonly openingKg: number;
  /** What replayed records changed: mass moved, and levels measured apart from what was expected. */
  readonly recordedKg: number;
  /** Loaded at sources (and aboard flights that have departed), and brought home by sorties. */
  readonly inKg: number;
  readonly boilOffKg: number;
  readonly inFlightLossKg: number;
  readonly residualKg: number;
  /** Chilldown and transfer loss. */
  readonly handoverLossKg: number;
  readonly ventedKg: number;
  readonly keptAboardKg: number;
  /** Aboard flights under way at the horizon, and sorties when they left. */
  readonly carriedOffKg: number;
  readonly closingKg: number;
}

export interface Forecast {
  readonly asOfAt: number;
  readonly horizonAt: number;
  readonly levels: readonly LevelHistory[];
  readonly flights: readonly FlightForecast[];
  readonly sorties: readonly SortieForecast[];
  /** Lost from each tank (boil-off), and its level at the horizon. */
  readonly losses: readonly { readonly tankId: string; readonly lostKg: number; readonly closingKg: number }[];
  readonly balances: readonly PropellantBalance[];
  /** Flights left out because they feed each other in a circle at one instant. */
  readonly cyclicFlightIds: readonly string[];
  /** The plan as the engine has it, for searches that start from here. */
  readonly compiled: CompiledPlan;
}
