/** The whole supply check: statuses and findings, and by search the slack, the hinges and the latest departures. */
import { byId } from "../forecast/draft.ts";
import { forecast } from "../forecast/forecast.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import { type Engine, createEngine } from "../forecast/propagate.ts";
import { FATE, fatesOf } from "./fate.ts";
import { glance } from "./glance.ts";
import { hingesOf } from "./hinges.ts";
import type { FlightSlack, JointSlack, SupplyAnswer } from "./answer.ts";
import { type Turns, firstWorse, firstWorseTogether, turningInstants } from "./slack-search.ts";

const MINUTES_A_DAY = 1440;

/** The last minute before the first bad one. */
const slackMinutes = (firstWorseMinute: number): number | "any" =>
  firstWorseMinute === Infinity ? "any" : firstWorseMinute - 1;

/** Of each tanker class with flights still to depart that arrive before the horizon: how far they may slip together. */
const jointSlackOf = (plan: PlanSnapshot, engine: Engine, turns: Turns, base: Uint8Array): readonly JointSlack[] => {
  const compiled = engine.run.plan;
  const rows = byId(plan.flights);
  const craft = byId(plan.craft);
  const classOf = (flight: number): string | null => {
    const row = rows.get(compiled.flightIds[flight] ?? "");
    const isAhead = row !== undefined && (row.status === "planned" || row.status === "firm");
    return isAhead && (compiled.flightArriveAt[flight] ?? Infinity) <= compiled.horizonAt
      ? (craft.get(row.craftId)?.classId ?? null)
      : null;
  };
  const byClass = Map.groupBy(compiled.flightIds.keys(), classOf);
  return plan.craftClasses.flatMap(({ id }): readonly JointSlack[] => {
    const flights = byClass.get(id);
    if (flights === undefined) return [];
    const minutes = slackMinutes(firstWorseTogether(engine, flights, turns, base));
    return [{ classId: id, flights: flights.length, slackDays: minutes === "any" ? minutes : minutes / MINUTES_A_DAY }];
  });
};

/**
 * The supply check of a plan case. `onProgress` hears the share done, from 0 to 1, flight by flight; if it throws, the
 * check stops with that. Pure. Holds when nothing breaks the verdict.
 */
export const check = (plan: PlanSnapshot, onProgress?: (share: number) => void): SupplyAnswer => {
  const seen = forecast(plan);
  const seenGlance = glance(plan, seen);
  const { compiled } = seen;
  const engine = createEngine(compiled);
  const { run } = engine;
  const base = fatesOf(engine.go());
  const loadedAt = run.sortieLoadedAt.slice();
  const turns = turningInstants(compiled);
  const rows = byId(plan.flights);
  const slack: FlightSlack[] = [];
  const latestDeparture: { flightId: string; at: number | null }[] = [];
  compiled.flightIds.forEach((flightId, flight) => {
    onProgress?.(flight / compiled.flightIds.length);
    const row = rows.get(flightId);
    const arrivesAt = compiled.flightArriveAt[flight] ?? Infinity;
    if (row === undefined || arrivesAt > compiled.horizonAt) return;
    const worse = firstWorse(engine, flight, turns, base);
    worse.forEach((minute, sortie) => {
      const isConcerned =
        compiled.sortieIsOut[sortie] === 0 && base[sortie] !== FATE.doesNotFly && arrivesAt <= (loadedAt[sortie] ?? 0);
      if (!isConcerned) return;
      const minutes = slackMinutes(minute);
      const slackDays = minutes === "any" ? minutes : minutes / MINUTES_A_DAY;
      slack.push({ flightId, sortieId: compiled.sortieIds[sortie] ?? "", slackDays });
    });
    if (row.status !== "planned" && row.status !== "firm") return;
    const least = slackMinutes(Math.min(Infinity, ...worse));
    const departAt = compiled.flightDepartAt[flight] ?? 0;
    latestDeparture.push({ flightId, at: least === "any" ? null : departAt + least * 60_000 });
  });
  const hinges = hingesOf(engine, base);
  const jointSlack = jointSlackOf(plan, engine, turns, base);
  onProgress?.(1);
  return {
    ...seenGlance,
    holds: seenGlance.verdict.breaks.length === 0,
    slack,
    jointSlack,
    hinges,
    latestDeparture,
  };
};
