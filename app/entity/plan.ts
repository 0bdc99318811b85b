/** What a forecast is computed from: one plan case and the recorded state, as plain data. No clock, no database. */
import type { Entity } from "./entities.ts";

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

/** A recorded change of one tank after the instant from which the forecast replays. */
export interface ReplayedRecord {
  readonly at: number;
  readonly tankId: string;
  /** level: becomes so many kg; moved: so many kg in (+) or out (−); flow: the recorded metered inflow becomes so many kg/day. */
  readonly what: "level" | "moved" | "flow";
  readonly kg: number;
  /** Its place at one instant: before all, with deliveries and returns, as a reading after them, with loadings, or with departures. */
  readonly order: "first" | "in" | "measured" | "out" | "departs";
}

/** Where something planned has no record by the as-of instant, the forecast begins before it and replays the records since. */
export interface Replay {
  /** At or before the as-of instant; openings are those just before it. */
  readonly fromAt: number;
  readonly records: readonly ReplayedRecord[];
}

/** What a sortie that is under way left with, by its record. kg */
export interface LeftWith {
  readonly sortieId: string;
  readonly propellantId: string;
  /** All that is aboard. */
  readonly massKg: number;
  /** Of it, what the depot gave, without what was lost in the handover. */
  readonly givenKg: number;
}

/** A pinned as-of instant leaves out records that came later: how many, and when the last of them was. */
export interface LookBack {
  readonly leftOut: number;
  readonly lastAt: number;
}

/** Everything the forecast, the checks and the views of one plan case need. Loss periods, campaigns, flights and
 * sorties are those of this case (loss periods also those that hold for all cases). */
export interface PlanSnapshot {
  readonly planCase: Entity<"planCase">;
  /** What is known is known up to here: the last record, or as set. Events before it without a record are overdue. Forecast from here… */
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
  /** Where the forecast has to begin before the as-of instant; absent: it begins there. */
  readonly replay?: Replay | undefined;
  /** Levels where the forecast begins. Tanks without an opening are empty. */
  readonly opening: readonly OpeningLevel[];
  /** What sorties under way left with; absent: each with what it needs. */
  readonly leftWith?: readonly LeftWith[];
  /** The as-of instant is pinned before records that exist; absent: none is left out. */
  readonly lookBack?: LookBack;
  /** Loss periods of this case alone that begin before the latest record, which was booked without them; absent: none do. */
  readonly backdatedLosses?: readonly { readonly periodId: string; readonly recordAt: number }[];
  /** Of each tank the last reading that is far from the books; absent: not looked at. */
  readonly farReadings?: readonly FarReading[];
}

/** Where the forecast of a plan begins: at the as-of instant, or before it where events are replayed. */
export const startOf = (plan: Pick<PlanSnapshot, "asOfAt" | "replay">): number => plan.replay?.fromAt ?? plan.asOfAt;
