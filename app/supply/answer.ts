/** The answer of the supply check, as plain data. */
import type { FarReading } from "../entity/plan.ts";
import type { SheetCheck } from "../sortie/checks.ts";

/** "not stated": nothing says what the sortie needs, so nothing says that it has it. */
export type SupplyStatus = "supplied" | "thin" | "short" | "not stated";

/** One sortie, one propellant, at loading. Masses in kg. */
export interface SupplyLine {
  readonly propellantId: string;
  /** Drawable: above the heel, in the depot, plus what is already aboard the lander. */
  readonly availableKg: number;
  /** What the tanks must give and the lander must have: the load plus chilldown and handover loss of the top-up. */
  readonly requiredKg: number;
  /** Available − required − (reserve above heel); negative: the reserve is eaten or the load cannot be had. */
  readonly marginOverReserveKg: number;
  /** The same as a share of what is required, per cent. */
  readonly marginPercent: number;
  readonly status: Exclude<SupplyStatus, "not stated">;
  /** kg that are missing to load at all (0 unless short). */
  readonly missingKg: number;
}

/** One sortie. */
export interface SortieSupply {
  readonly sortieId: string;
  readonly sortieKey: string;
  readonly name: string;
  /** When it was to load; and when the forecast has it load (later if it waits); null: it stands down. */
  readonly plannedAt: number;
  readonly loadedAt: number | null;
  readonly status: SupplyStatus;
  readonly outcome: "flies" | "waits and flies" | "stands down";
  /** Its lander was away at the planned loading: short for that alone, whatever the depot has. */
  readonly landerIsAway: boolean;
  readonly lines: readonly SupplyLine[];
  /** The propellant with the least margin relative to what is required. */
  readonly limitingPropellantId: string | null;
  /** For a short sortie: the first instant at which it could load if it alone were moved; null: not before the horizon. */
  readonly firstPossibleAt: number | null;
}

/**
 * By how much one flight alone may slip with the fate of one sortie kept: the largest whole number of minutes s such that
 * at every slip from 0 to s it fares no worse than now (a slip may make it worse and then better again: the time after
 * that does not count). Its fate is its status and whether it flies when planned, waits and flies, or stands down. Given
 * for flights that arrive before a sortie that flies leaves.
 */
export interface FlightSlack {
  readonly flightId: string;
  readonly sortieId: string;
  /** Days; "any": no slip up to the horizon makes it fare worse. Exact to a minute. */
  readonly slackDays: number | "any";
}

/** A flight whose loss alone makes a sortie wait that flies when planned now, or keeps it from flying that flies now. */
export interface Hinge {
  readonly sortieId: string;
  readonly flightId: string;
  readonly becomes: "waits and flies" | "does not fly";
}

/** By how much all flights of a class that are still to depart may slip together with the fate of every sortie kept. */
export interface JointSlack {
  readonly classId: string;
  /** How many they are. */
  readonly flights: number;
  /** Days, exact to a minute; "any": up to the horizon. */
  readonly slackDays: number | "any";
}

/** Something about the whole plan that a planner should know. */
export type PlanFinding =
  | {
      readonly kind: "overflow";
      readonly flightId: string;
      readonly propellantId: string;
      readonly at: number;
      readonly notTakenKg: number;
      readonly fate: "kept aboard" | "vented";
    }
  | { readonly kind: "full depot"; readonly flightId: string; readonly depotId: string; readonly at: number }
  | {
      readonly kind: "port conflict";
      readonly depotId: string;
      readonly flightIds: readonly string[];
      readonly fromAt: number;
      readonly untilAt: number;
      readonly ports: number;
    }
  | { readonly kind: "tank empty"; readonly tankId: string; readonly fromAt: number; readonly untilAt: number | null }
  | {
      readonly kind: "below reserve";
      readonly depotId: string;
      readonly propellantId: string;
      readonly fromAt: number;
      readonly untilAt: number | null;
      readonly lowestKg: number;
      readonly lowestAt: number;
    }
  | {
      readonly kind: "origin ran dry";
      readonly flightId: string;
      readonly propellantId: string;
      readonly at: number;
      readonly missingKg: number;
    }
  | { readonly kind: "unused flight"; readonly flightId: string }
  /** One hull on two flights at once; `flightIds` in order of departure, `busyUntilAt`: when the first leaves the port. */
  | {
      readonly kind: "hull overlap";
      readonly craftId: string;
      readonly flightIds: readonly [string, string];
      readonly busyUntilAt: number;
      readonly departAt: number;
    }
  /** A hull departs before its class's turnaround since the flight before is over. */
  | {
      readonly kind: "turnaround not kept";
      readonly craftId: string;
      readonly flightIds: readonly [string, string];
      readonly readyAt: number;
      readonly departAt: number;
    }
  /** A hull that was lost is to fly again. */
  | { readonly kind: "hull was lost"; readonly craftId: string; readonly flightIds: readonly [string, string] }
  /** Stated dates of a sortie that do not agree with its profile, and what that changes in its load (null: not known). */
  | {
      readonly kind: "time away differs";
      readonly sortieId: string;
      readonly statedDays: number;
      readonly profileDays: number;
      readonly extra: readonly { readonly propellantId: string; readonly massKg: number }[] | null;
    }
  /** Names that a reader, or an import, may take for one another. */
  | {
      readonly kind: "near-equal names";
      readonly of: "flight" | "sortie" | "craft" | "tank" | "depot";
      readonly ids: readonly [string, string];
      readonly names: readonly [string, string];
    }
  /** A load so far from its class's usual one that a slip of the pen is likelier than a wish. */
  | {
      readonly kind: "unusual load";
      readonly of: "flight" | "sortie";
      readonly id: string;
      readonly propellantId: string;
      readonly massKg: number;
      readonly usualKg: number;
    }
  /** The last gauge reading of a tank that lies far from what the books and the loss model say. */
  | ({ readonly kind: "far reading" } & FarReading)
  | { readonly kind: "lander overlap"; readonly landerId: string; readonly sortieIds: readonly [string, string] }
  | {
      readonly kind: "lander cannot hold";
      readonly sortieId: string;
      readonly propellantId: string;
      readonly capacityKg: number;
      readonly loadKg: number;
    }
  /** It leaves with more than it needs, which stays aboard and comes home. */
  | {
      readonly kind: "surplus aboard";
      readonly sortieId: string;
      readonly surplus: readonly { readonly propellantId: string; readonly massKg: number }[];
    }
  /** The rating of engines runs out: they must be changed before this sortie. Numbers from 1, of so many. */
  | {
      readonly kind: "engine change due";
      readonly landerId: string;
      /** Whose engines; null: the lander's own stage. */
      readonly stage: string | null;
      readonly sortieId: string;
      readonly at: number;
      readonly engineNumbers: readonly number[];
      readonly engines: number;
      readonly exceeds: readonly ("ignitions" | "burn time")[];
    }
  /** A check of the sortie's sheet that is not met. */
  | { readonly kind: "sortie check"; readonly sortieId: string; readonly check: SheetCheck }
  /** The forecast's own sums do not add up: so many kg come from nowhere (+) or are gone (−). Nothing it says can be trusted. */
  | { readonly kind: "does not balance"; readonly propellantId: string; readonly massKg: number }
  /** A loss period of this case alone begins before the latest record: what was booked up to then does not know of it. */
  | { readonly kind: "backdated loss"; readonly periodId: string; readonly tankId: string; readonly recordAt: number }
  /** Flights that take no time and feed each other: left out of the forecast. */
  | { readonly kind: "circular flights"; readonly flightIds: readonly string[] }
  /** A flight or sortie that should have gone or come before the as-of instant: assumed to have gone as planned. */
  | { readonly kind: "overdue"; readonly id: string; readonly at: number };

/** The flights and sorties that are overdue, by id. */
export const overdueOf = (findings: readonly PlanFinding[]): ReadonlySet<string> =>
  new Set(findings.flatMap((finding) => (finding.kind === "overdue" ? [finding.id] : [])));

/** What it all comes to, the same in every form of the answer; made in `verdict.ts` alone. */
export interface Verdict {
  /** "No verdict": the forecast itself is wrong, so that nothing can be said. */
  readonly word: "No verdict" | "No-go" | "Go, if" | "Go" | "Nothing to judge";
  /** The reason in one or a few sentences. */
  readonly sentence: string;
  /** What breaks it; what must be accepted or mended for it to hold; the notes. Each a sentence. */
  readonly breaks: readonly string[];
  readonly conditions: readonly string[];
  readonly notes: readonly string[];
}

/** Statuses and findings, and what they come to: what a drag frame shows. */
export interface SupplyGlance {
  readonly sorties: readonly SortieSupply[];
  readonly findings: readonly PlanFinding[];
  readonly verdict: Verdict;
}

/** The whole check, with what takes a search. */
export interface SupplyAnswer extends SupplyGlance {
  /** Nothing breaks the verdict. */
  readonly holds: boolean;
  readonly slack: readonly FlightSlack[];
  readonly jointSlack: readonly JointSlack[];
  readonly hinges: readonly Hinge[];
  /** For each planned flight: the latest departure with which every sortie fares as now; null: it may slip to the horizon. */
  readonly latestDeparture: readonly { readonly flightId: string; readonly at: number | null }[];
}
