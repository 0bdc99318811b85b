/** What a plan comes to, by the same forecast and statuses as everywhere; and whether a sortie fares better or worse. */
import { isAhead } from "../../forecast/compile-flights.ts";
import { forecast } from "../../forecast/forecast.ts";
import type { FlightLineForecast, Forecast } from "../../forecast/outcome.ts";
import type { PlanSnapshot } from "../../entity/plan.ts";
import { glance } from "../glance.ts";
import type { SupplyGlance } from "../answer.ts";
import type { Outlook, SortieFate } from "./cure.ts";

const sum = (masses: readonly number[]): number => masses.reduce((total, kg) => total + kg, 0);

const lostOfLine = (line: FlightLineForecast): number =>
  line.originChilldownKg +
  line.originLossKg +
  line.inFlightLossKg +
  line.chilldownKg +
  line.handoverLossKg +
  line.ventedKg;

/** Sums of one forecast, kg. */
export const sumsOf = (seen: Forecast): Pick<Outlook, "deliveredKg" | "lostKg"> => {
  const lines = seen.flights.flatMap((flight) => flight.lines);
  const drawn = seen.sorties.flatMap((sortie) => sortie.lines);
  return {
    deliveredKg: sum(lines.flatMap(({ taken }) => taken.map(({ massKg }) => massKg))),
    lostKg:
      sum(seen.losses.map(({ lostKg }) => lostKg)) +
      sum(lines.map(lostOfLine)) +
      sum(drawn.map(({ chilldownKg, handoverLossKg }) => chilldownKg + handoverLossKg)),
  };
};

/** The outlook of a plan that is forecast already. */
export const outlookFrom = (plan: PlanSnapshot, seen: Forecast, supply: SupplyGlance): Outlook => ({
  verdict: supply.verdict.word,
  sorties: supply.sorties.map(
    ({ sortieId, name, plannedAt, loadedAt, status, outcome, firstPossibleAt }): SortieFate => ({
      sortieId,
      name,
      plannedAt,
      loadedAt,
      status,
      outcome,
      firstPossibleAt,
    }),
  ),
  flights: plan.flights.filter(isAhead).length,
  ...sumsOf(seen),
});

/** Forecasts a plan and says what it comes to, and what breaks it. */
export const outlookOf = (plan: PlanSnapshot): { readonly outlook: Outlook; readonly breaks: readonly string[] } => {
  const seen = forecast(plan);
  const supply = glance(plan, seen);
  return { outlook: outlookFrom(plan, seen, supply), breaks: supply.verdict.breaks };
};

/** Larger is better: not at all, after waiting, on the reserve, fully supplied. A need that is not stated counts as flown. */
export const fareOf = ({ outcome, status }: Pick<SortieFate, "outcome" | "status">): number => {
  if (outcome === "stands down") return 0;
  if (outcome === "waits and flies") return 1;
  return status === "thin" ? 2 : 3;
};

/** Which of the other sorties fare better and worse in `then` than in `now`. */
export const compareFates = (
  now: Outlook,
  then: Outlook,
  exceptId: string | null,
): { readonly betterIds: readonly string[]; readonly worseIds: readonly string[] } => {
  const before = new Map(now.sorties.map((fate) => [fate.sortieId, fareOf(fate)]));
  const changed = then.sorties.flatMap((fate) => {
    const was = before.get(fate.sortieId);
    if (was === undefined || fate.sortieId === exceptId || was === fareOf(fate)) return [];
    return [{ id: fate.sortieId, isBetter: fareOf(fate) > was }];
  });
  return {
    betterIds: changed.filter(({ isBetter }) => isBetter).map(({ id }) => id),
    worseIds: changed.filter(({ isBetter }) => !isBetter).map(({ id }) => id),
  };
};
