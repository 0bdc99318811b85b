/** What the ledger's own records say of slips and losses: an offer to state it, never taken by itself. */
import type { PlanSnapshot } from "../entity/plan.ts";
import type { Entity } from "../entity/entities.ts";
import { DAY_MS } from "../ground/quantity.ts";
import type { Uncertainty } from "../entity/risk-input.ts";

/** Flights of one class whose fate is known, as an input that could be stated. */
export interface ObservedInput {
  readonly uncertainty: Uncertainty;
  /** "these 14 flights: 3 late, by 4 to 31 days". */
  readonly words: string;
  /** What would stand as the source. */
  readonly source: string;
  readonly flightIds: readonly string[];
  /** Flights that say nothing here, for when they were planned is not known. */
  readonly leftOut: number;
}

/** When flights were first planned to depart, by key. */
export interface PlannedDepartures {
  firstPlannedDepartures(): ReadonlyMap<string, number>;
}

const dayText = (days: number): string => String(Number(days.toFixed(1)));
const flightsText = (count: number): string => (count === 1 ? "this flight" : `these ${count} flights`);

const slipWords = (days: readonly number[]): string => {
  const late = days.filter((value) => value > 0);
  if (late.length === 0) return `${flightsText(days.length)}: none late`;
  const [least, most] = [dayText(Math.min(...late)), dayText(Math.max(...late))];
  const range = least === most ? `${least} ${least === "1" ? "day" : "days"}` : `${least} to ${most} days`;
  return `${flightsText(days.length)}: ${late.length} late, by ${range}`;
};

/** Less than this is on time: a record has the minute, a plan the day. */
const ON_TIME_MS = DAY_MS / 2;

const slipOf = (row: Entity<"flight">, plannedAt: number): number => {
  const slipMs = row.departAt - plannedAt;
  return slipMs <= ON_TIME_MS ? 0 : Number((slipMs / DAY_MS).toFixed(2));
};

const slipsOf = (craftClassId: string, flights: readonly Entity<"flight">[], planned: ReadonlyMap<string, number>) => {
  const known = flights.filter((row) => planned.has(row.key));
  if (known.length === 0) return [];
  const days = known.map((row) => slipOf(row, planned.get(row.key) ?? row.departAt));
  const words = slipWords(days);
  const observed: ObservedInput = {
    uncertainty: {
      quantity: "flight slip",
      of: { kind: "craft class", craftClassId },
      law: { kind: "observed", days },
    },
    words,
    source: `own records, ${words}`,
    flightIds: known.map(({ id }) => id),
    leftOut: flights.length - known.length,
  };
  return [observed];
};

const lossesOf = (craftClassId: string, flights: readonly Entity<"flight">[]): ObservedInput[] => {
  const ended = flights.filter(({ status }) => status === "arrived" || status === "lost");
  if (ended.length === 0) return [];
  const lost = ended.filter(({ status }) => status === "lost").length;
  const words = `${flightsText(ended.length)}: ${lost === 0 ? "none" : lost} lost`;
  return [
    {
      uncertainty: {
        quantity: "flight loss",
        of: { kind: "craft class", craftClassId },
        law: { kind: "trials", successes: ended.length - lost, trials: ended.length },
      },
      words,
      source: `own records, ${words}`,
      flightIds: ended.map(({ id }) => id),
      leftOut: flights.length - ended.length,
    },
  ];
};

const gone: ReadonlySet<string> = new Set(["departed", "arrived", "lost"]);

/** One offer a class and quantity, of the flights that are recorded: slips against the date first planned, and losses. */
export const observedInputs = (plan: PlanSnapshot, history: PlannedDepartures): readonly ObservedInput[] => {
  const planned = history.firstPlannedDepartures();
  const classOf = new Map(plan.craft.map((row) => [row.id, row.classId]));
  const flown = plan.flights.filter(({ status }) => gone.has(status));
  const byClass = Map.groupBy(flown, ({ craftId }) => classOf.get(craftId) ?? "");
  return plan.craftClasses.flatMap(({ id }) => {
    const flights = (byClass.get(id) ?? []).toSorted((a, b) => a.departAt - b.departAt);
    return [...slipsOf(id, flights, planned), ...lossesOf(id, flights)];
  });
};
