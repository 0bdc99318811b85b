/** What a forecast is computed from: one plan case and the recorded state, as plain data. No clock, no database. */
import type { Entity } from "../ledger/entities.ts";

/** The level of one tank at the as-of instant. */
export interface OpeningLevel {
  readonly tankId: string;
  readonly massKg: number;
}

/** A gauge reading far from the level that the books and the loss model give for its instant. */
export interface FarReading {
  readonly tankId: string;
  readonly readingId: string;
  readonly at: number;
  readonly massKg: number;
  readonly bookKg: number;
  /** Reading − book in units of the uncertainty of the difference. */
  readonly sigmas: number;
  /** It is the tank's latest reading: what is forecast rests on it, or on books that it contradicts. */
  readonly isLatest: boolean;
  /** Further readings of the tank that are as far off. */
  readonly others: number;
}

/** Everything the forecast, the checks and the views of one plan case need. Loss periods, campaigns, flights and
 * sorties are those of this case (loss periods also those that hold for all cases). */
export interface PlanSnapshot {
  readonly planCase: Entity<"planCase">;
  /** Forecast from here… */
  readonly asOfAt: number;
  /** …to here. */
  readonly horizonAt: number;
  readonly propellants: readonly Entity<"propellant">[];
  readonly depots: readonly Entity<"depot">[];
  readonly sources: readonly Entity<"source">[];
  readonly craftClasses: readonly Entity<"craftClass">[];
  readonly profiles: readonly Entity<"profile">[];
  readonly craft: readonly Entity<"craft">[];
  readonly tanks: readonly Entity<"tank">[];
  readonly lossPeriods: readonly Entity<"lossPeriod">[];
  readonly campaigns: readonly Entity<"campaign">[];
  readonly flights: readonly Entity<"flight">[];
  readonly sorties: readonly Entity<"sortie">[];
  /** How uncertain it is; the forecast itself takes no notice. */
  readonly riskInputs: readonly Entity<"riskInput">[];
  /** Tanks without an opening are empty. */
  readonly opening: readonly OpeningLevel[];
  /** Of each tank the last reading that is far from the books; absent: not looked at. */
  readonly farReadings?: readonly FarReading[];
}
