/** When flights must leave at the latest, and may at the earliest, as plain data. */

/** A sortie that would fare worse, and what would become of it. */
export interface FaresWorse {
  readonly sortieId: string;
  readonly becomes: "uses the reserve" | "waits" | "does not fly";
}

/**
 * What keeps flights from leaving earlier still: the as-of instant, a tank that would not take what it takes now (of
 * which flight), a port, the hull's flight before, a depot of origin that would give less, or a sortie.
 */
export type EarliestBy =
  | { readonly kind: "as-of" }
  | { readonly kind: "tank room" | "origin" | "port" | "hull"; readonly flightId: string }
  | ({ readonly kind: "sortie" } & FaresWorse);

/** One planned or firm flight, all others as planned. Instants in ms UTC, exact to a minute. */
export interface LeaveBy {
  readonly flightId: string;
  readonly classId: string;
  readonly depotId: string;
  /** As the forecast has it. */
  readonly departAt: number;
  /** The last departure up to which every sortie fares as now; null: no sortie needs it before the plan ends. */
  readonly latestAt: number | null;
  /** What a minute later does. */
  readonly latestBy: FaresWorse | null;
  /** The first departure from which on everything is as good as now. */
  readonly earliestAt: number;
  readonly earliestBy: EarliestBy;
  /** The first later departure, up to the latest one, with which no port is free on arrival; null: none. */
  readonly portTakenFromAt: number | null;
  /** The first later departure, up to the latest one, with which its hull is not back for its next flight; null: none. */
  readonly hullNeededFromAt: number | null;
}

/** All planned and firm flights of a class, moved together by the same time. */
export interface ClassLeaveBy {
  readonly classId: string;
  readonly flightIds: readonly string[];
  /** Of the first of them, as the forecast has it. */
  readonly firstDepartAt: number;
  /** So much later at most; null: no sortie needs them before the plan ends. */
  readonly latestSlipMs: number | null;
  readonly latestBy: FaresWorse | null;
  /** So much earlier at most. */
  readonly earliestAdvanceMs: number;
  readonly earliestBy: EarliestBy;
}

export interface LeaveByAnswer {
  readonly asOfAt: number;
  readonly horizonAt: number;
  /** The one that must leave first comes first. */
  readonly flights: readonly LeaveBy[];
  readonly classes: readonly ClassLeaveBy[];
}
