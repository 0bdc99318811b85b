/** What a run of many replications says, each number with its standard error. Plain data: it travels and is kept as JSON. */

/** A probability or a mean, and the standard error of it. */
export interface Estimate {
  readonly value: number;
  readonly standardError: number;
}

/** Share of all replications. */
export type Share = Estimate;

/** A quantile with a 95 % interval (from the order statistics); null: fewer cases than it takes. */
export interface QuantileEstimate {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** A distribution as counts: `counts[i]` cases lie in (edges[i], edges[i + 1]]; the first bin holds its lower edge, too. */
export interface Histogram {
  readonly edges: readonly number[];
  readonly counts: readonly number[];
}

export interface SortieRisk {
  readonly sortieId: string;
  readonly key: string;
  /** Loads at its first try (its own slip, if any, not held against it). */
  readonly fliesWhenPlanned: Share;
  readonly flies: Share;
  /** Delay of the loading against the plan as written, days, of those that fly; null: none flew. */
  readonly delayDays: {
    readonly p50: QuantileEstimate;
    readonly p80: QuantileEstimate;
    readonly p90: QuantileEstimate;
  } | null;
  /** Of all replications: it flew within so many days of the plan as written. */
  readonly flownWithin: readonly { readonly days: number; readonly share: Share }[];
  readonly delays: Histogram;
  /** Why it did not fly at its first try, of all replications; by propellant (one may stand under several). */
  readonly shortOf: readonly { readonly propellantId: string; readonly share: Share }[];
  readonly landerAway: Share;
  /** Its loading, or its last try, would have come after the horizon: counted as not flown. */
  readonly pastHorizon: Share;
  /**
   * By propellant: how much more at the depot at its first try would have been enough in 90 % and 95 % of the
   * replications, the other propellants being plenty. 0: it is already. kg; null: more than any that was missing.
   */
  readonly extraKg: readonly {
    readonly propellantId: string;
    readonly for90: QuantileEstimate | null;
    readonly for95: QuantileEstimate | null;
  }[];
  /** What the replications in which it does not fly when planned have in common, the strongest first. */
  readonly common: readonly CommonCause[];
}

/** One circumstance, its share among the bad replications and among all. */
export interface CommonCause {
  readonly what:
    | { readonly kind: "flight lost"; readonly flightId: string }
    | { readonly kind: "flight late"; readonly flightId: string; readonly moreThanDays: number }
    | { readonly kind: "cooler failed"; readonly tankId: string }
    | { readonly kind: "boil-off high"; readonly tankId: string };
  readonly ofBad: Share;
  readonly ofAll: Share;
}

/** Levels of one propellant at one depot (its tanks together), after all that happens at each instant. kg */
export interface Band {
  readonly depotId: string;
  readonly propellantId: string;
  readonly at: readonly number[];
  readonly p5: readonly number[];
  readonly p10: readonly number[];
  readonly p50: readonly number[];
  readonly p90: readonly number[];
  readonly p95: readonly number[];
}

export interface PoolRisk {
  readonly depotId: string;
  readonly propellantId: string;
  readonly boilOffKg: Estimate;
  /** Brought and not taken for want of room: stays aboard or is vented. */
  readonly notTakenKg: Estimate;
  /** null: flights that vent and flights that keep it aboard both bring it, and the shares are not told apart. */
  readonly ventedKg: Estimate | null;
}

/** What one input does to the answer: the probability that all fly when planned, paired with the run as it stands. */
export interface Driver {
  /** The id of the stated input, or of the default ("default:flight slip"). */
  readonly inputId: string;
  /** P with the input at its median, minus P; paired. Negative where the median is the worse. */
  readonly frozen: Estimate;
  /** P with the input as planned, minus P; paired. */
  readonly certain: Estimate;
  /** The same on the mean number of sorties flown. */
  readonly flownFrozen: Estimate;
  readonly flownCertain: Estimate;
}

/** What becomes of the plan without a flight (or two): paired with the run as it stands. */
export interface Dropped {
  readonly flightIds: readonly string[];
  readonly allFly: Share;
  readonly change: Estimate;
  /** Change of each sortie's probability of flying when planned, in the order of `sorties`. */
  readonly bySortie: readonly Estimate[];
}

/** Why a run ended where it did. */
export type RunEnd = "number reached" | "error reached" | "stopped" | "not finished";

/** What must be the same for the same bytes. */
export interface RiskIdentity {
  readonly seed: number;
  /** SHA-256 of the plan, the recorded state and the inputs. */
  readonly inputHash: string;
  /** Of this computation: counted up whenever its numbers change. */
  readonly kernelVersion: number;
}

export interface RiskAnswer extends RiskIdentity {
  readonly planCaseId: string;
  readonly asOfAt: number;
  readonly horizonAt: number;
  readonly replications: number;
  /** Replications behind the bands and the common causes. */
  readonly bandReplications: number;
  readonly end: RunEnd;
  /** How many inputs there are that matter here, and how many of them are assumed. */
  readonly inputs: { readonly count: number; readonly assumed: number };
  /** What could not be had, a sentence each: "Sortie 9 is planned after the horizon". */
  readonly remarks: readonly string[];

  readonly allFlyWhenPlanned: Share;
  readonly allFly: Share;
  readonly sortiesFlown: Estimate;
  /** counts[n]: replications in which n sorties flew. */
  readonly flownCounts: readonly number[];
  readonly sorties: readonly SortieRisk[];
  /** Return of the last sortie, ms, of the replications in which all fly; null: in none. */
  readonly campaignEndAt: {
    readonly p50: QuantileEstimate;
    readonly p80: QuantileEstimate;
    readonly p90: QuantileEstimate;
    readonly histogram: Histogram;
  } | null;
  readonly pools: readonly PoolRisk[];
  /** Flights that departed by the horizon. */
  readonly flightsUsed: Estimate;
  readonly flightsLost: Estimate;
  /** Empty unless they were asked for. */
  readonly bands: readonly Band[];
}

/** What the probability that all fly when planned hangs on; everything is paired with the plan as it stands. */
export interface RiskCauses {
  readonly seed: number;
  readonly inputHash: string;
  readonly replications: number;
  /** Whether everything was run: what is not there was not reached. */
  readonly isWhole: boolean;
  /** Greatest effect first. */
  readonly drivers: readonly Driver[];
  /** Greatest harm first: every flight ahead, and pairs of those whose loss alone costs most. */
  readonly dropOne: readonly Dropped[];
  readonly dropTwo: readonly Dropped[];
}

/** Two plan cases under the same seed, replication by replication: the second minus the first. */
export interface RiskDifference {
  readonly planCaseIds: readonly [string, string];
  readonly replications: number;
  readonly allFlyWhenPlanned: Estimate;
  readonly allFly: Estimate;
  readonly sortiesFlown: Estimate;
  /** Sorties that both cases have, by key. */
  readonly sorties: readonly { readonly key: string; readonly fliesWhenPlanned: Estimate; readonly flies: Estimate }[];
}
