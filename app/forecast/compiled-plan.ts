/** A plan case as the engine reads it: flat typed arrays and indices. Instants in ms, masses in kg, rates per day. */
import type { Windows } from "../entity/windows.ts";

/**
 * What happens, in the order in which it counts at one instant: rate changes, inflows, measured levels, outflows. Among outflows a
 * sortie loads before a tanker does: the tanker can take less, the sortie cannot.
 */
export const EVENT = { rate: 0, flow: 1, arrival: 2, return: 3, record: 4, load: 5, departure: 6 } as const;

/** What a recorded fact does: sets a tank's level, moves mass into (+) or out of it, sets its recorded metered inflow (kg/day), says that a lander leaves or is back, that a need's load, of which the depot gave so many kg, leaves with it, or that a lander, whatever was thought of it, is home by then. */
export const RECORD = { level: 0, moved: 1, flow: 2, leaves: 3, back: 4, loaded: 5, home: 6 } as const;

/** Room for the index in an event's key; more rows of one kind than this are not foreseen by the contract. */
export const KEY_STRIDE = 2 ** 24;

/** Order of an event among those of one instant: causal rank, kind, index. */
export const eventKey = (rank: number, kind: number, index: number): number => (rank * 8 + kind) * KEY_STRIDE + index;

/** Loss and transfer of one flight line are those of its class; a transfer keeps `keep` = 1 − lost share of what flows. */
export interface CompiledPlan {
  /** Where the run begins: the as-of instant, or before it where something is overdue. */
  readonly asOfAt: number;
  readonly horizonAt: number;
  /** Whether a sortie that cannot load waits. */
  readonly waits: boolean;

  /** Tanks of depots, then of landers; the identity in results. A lander without a tank row has one made up. */
  readonly tankIds: readonly string[];
  readonly tankMaximumKg: Float64Array;
  readonly tankHeelKg: Float64Array;
  readonly tankReserveKg: Float64Array;
  /** −1: by loss rate. */
  readonly tankRank: Int32Array;
  readonly tankOpeningKg: Float64Array;
  readonly tankK: Float64Array;
  readonly tankC: Float64Array;
  /** −1: aboard a lander. */
  readonly tankPool: Int32Array;

  /** A pool is one propellant at one depot: the tanks poolTanks[poolStart[p] .. poolStart[p+1]). */
  readonly poolKeys: readonly { readonly depotId: string; readonly propellantId: string }[];
  readonly poolStart: Int32Array;
  readonly poolTanks: Int32Array;
  /** The only tank of a pool; −1: none, or several. */
  readonly poolSoleTank: Int32Array;
  /** Reserve above heel, summed. */
  readonly poolReserveKg: Float64Array;

  /** Recorded facts after `asOfAt`, which the run replays beside the plan's events: what, tank or lander, kg or kg/day. */
  readonly recordWhat: Uint8Array;
  readonly recordOf: Int32Array;
  readonly recordKg: Float64Array;

  /** Rate changes. */
  readonly rateTank: Int32Array;
  readonly rateK: Float64Array;
  readonly rateC: Float64Array;

  /** Flights that the forecast concerns. */
  readonly flightIds: readonly string[];
  /** The key that copies of a flight share across plan cases: random streams hang on it. */
  readonly flightKeys: readonly string[];
  readonly flightCraftIds: readonly string[];
  /** Class of the craft that flies it; "": its craft is unknown. */
  readonly flightClassIds: readonly string[];
  readonly flightDepartAt: Float64Array;
  readonly flightArriveAt: Float64Array;
  /** Time at the port, ms. */
  readonly flightBerthMs: Float64Array;
  readonly flightLineStart: Int32Array;

  readonly linePropellantIds: readonly string[];
  readonly lineFlight: Int32Array;
  readonly linePool: Int32Array;
  /** The one tank that an at-once handover fills; −1: metered, or none, or several. */
  readonly lineTank: Int32Array;
  /** −1: not from a depot, or departed already. */
  readonly lineOriginPool: Int32Array;
  readonly lineLoadedKg: Float64Array;
  readonly lineTransitK: Float64Array;
  readonly lineTransitC: Float64Array;
  readonly lineTransitDays: Float64Array;
  readonly lineResidualKg: Float64Array;
  readonly lineChillKg: Float64Array;
  readonly lineKeep: Float64Array;
  /** What leaves the tanker, kg/day; 0: at once. */
  readonly lineRateKgPerDay: Float64Array;

  readonly sortieIds: readonly string[];
  readonly sortieKeys: readonly string[];
  readonly sortieLoadAt: Float64Array;
  readonly sortieReturnAt: Float64Array;
  readonly sortieHoldMs: Float64Array;
  readonly sortieLander: Int32Array;
  /** Departure windows of its depot; null: at any time. */
  readonly sortieWindows: readonly (Windows | null)[];
  readonly sortieLineStart: Int32Array;
  /** 1: on its way at the as-of instant; only its return is to come. */
  readonly sortieIsOut: Uint8Array;

  readonly needPropellantIds: readonly string[];
  readonly needPool: Int32Array;
  readonly needTank: Int32Array;
  readonly needLoadKg: Float64Array;
  readonly needReturnKg: Float64Array;
  /** Of a sortie that is out where the run begins: what it left with beyond its need. */
  readonly needSurplusKg: Float64Array;
  readonly needChillKg: Float64Array;
  readonly needKeep: Float64Array;

  readonly landerIds: readonly string[];
  readonly landerClassIds: readonly string[];

  /** Known events, those beyond the horizon too, sorted by instant, then key (kind, causal rank, then index). */
  readonly eventAt: Float64Array;
  readonly eventKey: Float64Array;
  readonly eventKind: Uint8Array;
  readonly eventIndex: Int32Array;

  /** Flights that feed each other in a circle at one instant: they cannot fly and are left out. */
  readonly cyclicFlightIds: readonly string[];
  /** Planned for before the as-of instant, not recorded as gone: taken to have gone as planned. */
  readonly overdueIds: readonly string[];
}
