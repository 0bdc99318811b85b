/** What a resupply search decides: at which instants flights of which lanes arrive, and what limits them. */
import type { PlanSnapshot } from "../entity/plan.ts";
import type { Entity } from "../entity/entities.ts";

/** One way in which a further flight may come: a class to a depot, from a source or another depot, or a planned flight. */
export interface Lane {
  readonly craftClass: Entity<"craftClass">;
  readonly depotId: string;
  /** The planned flight that this lane keeps; null: flights made of the class. */
  readonly planned: Entity<"flight"> | null;
  /** The depot at which its flights draw what they bring: they depart at an instant and arrive at a later one; null: a source. */
  readonly originDepotId: string | null;
  readonly tripMs: number;
  readonly berthMs: number;
  /** What one flight adds to what is minimised; 0 or more. */
  readonly cost: number;
}

/** Something of which so many can be in use at once: the ports of a depot, the hulls of a class. */
export interface Resource {
  readonly kind: "ports" | "hulls";
  /** The depot or the class. */
  readonly ownerId: string;
  readonly capacity: number;
  /** Lanes whose flights use one; in use from `leadMs` before the arrival to `holdMs` after it, by lane. */
  readonly lanes: readonly number[];
  readonly leadMs: Float64Array;
  readonly holdMs: Float64Array;
  /** Lanes from another depot that use one from their arrival on, for `holdMs`: a plan counts them, a proof does not. */
  readonly arriving: readonly number[];
  /** Uses by flights that are kept: from, until. */
  readonly kept: readonly (readonly [number, number])[];
}

/** A sum that may not be exceeded: a budget, a number of flights, what is loaded less what is left of it at the end. */
export interface Purse {
  readonly kind: "budget" | "flights" | "loss";
  readonly most: number;
  /** By lane. */
  readonly takes: Float64Array;
}

export interface Problem {
  /** The plan with the flights that stay whatever happens. */
  readonly plan: PlanSnapshot;
  readonly lanes: readonly Lane[];
  /** Arrivals: rising, after the as-of instant. */
  readonly instants: readonly number[];
  /** 1: a flight of the lane may arrive at the instant. [instant · lanes + lane] */
  readonly isOpen: Uint8Array;
  /** What counts as held: the reserve kept, or the sortie flown. */
  readonly goal: "supplied" | "flies";
  /** Most flights of one lane at one instant, whatever the ports. */
  readonly mostAtOnce: number;
  readonly resources: readonly Resource[];
  readonly purses: readonly Purse[];
  /** Any so many of the flights to come may be lost. */
  readonly lost: 0 | 1 | 2;
}

/** Most uses by kept flights at any instant of [from, until); one that ends makes room for one that begins. */
export const keptCrowd = (resource: Resource, from: number, until: number): number => {
  const met = resource.kept.filter(([begin, end]) => end > from && begin < until);
  let most = 0;
  for (const at of [from, ...met.map(([begin]) => begin).filter((begin) => begin > from)])
    most = Math.max(most, met.filter(([begin, end]) => begin <= at && end > at).length);
  return most;
};
