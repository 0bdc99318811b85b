/** What repairs a plan after a slip or a loss, as plain data: what is asked, and the ways found. */
import { z } from "zod";
import type { Entity } from "../entity/entities.ts";
import { id } from "../ground/quantity.ts";
import type { Binding, Cure, FlightChange, PlanSums, Unheld } from "./answer.ts";
import { resupplyAsked } from "./asked.ts";
import type { FlightMoved } from "./take-proposal.ts";

/** Something that may happen to a flight and is not in the plan yet. */
const mishap = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("lost"), flightId: id }),
  /** Departs (where it has not) and arrives so much later. */
  z.strictObject({ kind: z.literal("slips"), flightId: id, days: z.number().min(0).max(3650) }),
]);

export const repairAsked = resupplyAsked
  .pick({
    classes: true,
    arrivals: true,
    isBeforeLoadings: true,
    blackouts: true,
    goal: true,
    untilAt: true,
  })
  .extend({
    /** Empty: the plan as it stands. */
    mishaps: z.array(mishap).max(50),
  });

export type RepairAsked = Readonly<z.infer<typeof repairAsked>>;

/** One planned flight at another date. */
export interface FlightMove {
  /** As it would be. */
  readonly flight: Entity<"flight">;
  readonly fromDepartAt: number;
  readonly fromArriveAt: number;
  /** The first sortie that would not be held were it where it was; null: none hangs on it alone. */
  readonly isFor: FlightChange["isFor"];
}

/** What `resupply.take` and `resupply.takeHere` want to know of a way; the mishaps are in it. */
export interface RepairTaken {
  readonly added: readonly Entity<"flight">[];
  readonly craft: readonly Entity<"craft">[];
  readonly leftOutIds: readonly string[];
  readonly moved: readonly FlightMoved[];
}

/** One way after which every sortie is held, confirmed by a forecast of its own. */
export interface FoundRepair {
  readonly moved: readonly FlightMove[];
  readonly added: readonly FlightChange[];
  /** Flights moved or added. */
  readonly changes: number;
  /** One change where none does not do; or further flights of which fewer, without moving any, are proved not to do. */
  readonly isProvedLeast: boolean;
  readonly sums: PlanSums;
  readonly taken: RepairTaken;
}

export interface RepairAnswer {
  /** holds: nothing need change; none: no way was found, and what is in the way is said. */
  readonly standing: "holds" | "repaired" | "none";
  readonly goal: "supplied" | "flies";
  /** The plan with the mishaps, unrepaired. */
  readonly present: PlanSums;
  /** Later flights of lost hulls: they cannot leave, and count as not flown. */
  readonly goneIds: readonly string[];
  /** Sorties that are not held without a repair. */
  readonly broken: readonly Unheld[];
  /** Fewest changes first; of as many, fewest further flights. */
  readonly ways: readonly FoundRepair[];
  /** With fewer changes no repair is possible at the instants that were looked at; 1 where no more is known. */
  readonly leastChanges: number;
  /** None: what no flight holds, and what would cure it. */
  readonly unheld: readonly Unheld[];
  readonly binds: readonly Binding[];
  readonly cures: readonly Cure[];
  readonly isStopped: boolean;
}
