/** What flights or runs from a plant would do to a plan, before they are in it: what they bring, whom they help, what they disturb. */
import type { Forecast } from "../forecast/outcome.ts";
import { forecast } from "../forecast/forecast.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import type { Change, Entity } from "../entity/entities.ts";
import { DAY_MS } from "../ground/quantity.ts";
import { findingSentence } from "../supply/finding-sentence.ts";
import { glance } from "../supply/glance.ts";
import type { SupplyGlance, SupplyStatus } from "../supply/answer.ts";

export interface PlantEffect {
  readonly flights: readonly Entity<"flight">[];
  /** By propellant: loaded, and what the depot's tanks take of it by the end of the plan, kg. */
  readonly brought: readonly { readonly propellantId: string; readonly loadedKg: number; readonly takenKg: number }[];
  /** Sorties that fare otherwise. */
  readonly sorties: readonly { readonly name: string; readonly before: SupplyStatus; readonly after: SupplyStatus }[];
  /** Findings that the plan does not have without them, in sentences. */
  readonly findings: readonly string[];
  /** Flights that leave while the one before is still under way or at the port: one hull cannot fly both. */
  readonly overlapping: number;
  /** Flights from the same source that the plan has already and that are still ahead. */
  readonly already: number;
}

/** The plan as it is, with its answers: they are at hand where this is asked. */
export interface SeenPlan {
  readonly plan: PlanSnapshot;
  readonly glance: SupplyGlance;
}

const isAhead = ({ status }: Entity<"flight">): boolean => status === "planned" || status === "firm";

const valuesOf = <K extends "flight" | "craftClass" | "craft">(changes: readonly Change[], kind: K): Entity<K>[] =>
  changes.flatMap((change) => (change.op === "put" && change.kind === kind ? [change.value as Entity<K>] : []));

/** New rows take the place of those with the same id. */
const laidOver = <R extends { readonly id: string }>(rows: readonly R[], added: readonly R[]): readonly R[] => [
  ...rows.filter(({ id }) => !added.some((each) => each.id === id)),
  ...added,
];

const takenBy = (seen: Forecast, flightIds: ReadonlySet<string>, propellantId: string): number =>
  seen.flights
    .filter(({ flightId }) => flightIds.has(flightId))
    .flatMap(({ lines }) => lines.filter((line) => line.propellantId === propellantId))
    .flatMap(({ taken }) => taken)
    .reduce((sum, { massKg }) => sum + massKg, 0);

/** `changes` put flights (and a line's class and craft); nothing is written. */
export const plantEffect = (
  { plan, glance: before }: SeenPlan,
  sourceId: string,
  changes: readonly Change[],
): PlantEffect => {
  const flights = valuesOf(changes, "flight");
  const changed: PlanSnapshot = {
    ...plan,
    craftClasses: laidOver(plan.craftClasses, valuesOf(changes, "craftClass")),
    craft: laidOver(plan.craft, valuesOf(changes, "craft")),
    flights: laidOver(plan.flights, flights),
  };
  const seen = forecast(changed);
  const after = glance(changed, seen);
  const ids = new Set(flights.map(({ id }) => id));
  const loaded = Map.groupBy(
    flights.flatMap(({ loads }) => loads),
    ({ propellantId }) => propellantId,
  );
  const statusBefore = new Map(before.sorties.map(({ sortieId, status }) => [sortieId, status]));
  const known = new Set(before.findings.map((finding) => findingSentence(plan, finding)));
  return {
    flights,
    brought: [...loaded].map(([propellantId, loads]) => ({
      propellantId,
      loadedKg: loads.reduce((sum, { loadedKg }) => sum + loadedKg, 0),
      takenKg: takenBy(seen, ids, propellantId),
    })),
    sorties: after.sorties.flatMap(({ sortieId, name, status }) => {
      const then = statusBefore.get(sortieId);
      return then === undefined || then === status ? [] : [{ name, before: then, after: status }];
    }),
    findings: after.findings
      .map((finding) => findingSentence(changed, finding))
      .filter((sentence) => !known.has(sentence)),
    overlapping: flights.filter((flight, index) => {
      const earlier = flights[index - 1];
      return earlier !== undefined && flight.departAt < earlier.arriveAt + earlier.berthDays * DAY_MS;
    }).length,
    already: plan.flights.filter(
      (flight) => isAhead(flight) && flight.origin.kind === "source" && flight.origin.sourceId === sourceId,
    ).length,
  };
};
