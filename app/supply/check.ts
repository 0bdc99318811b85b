/** The whole supply check: statuses and findings, and by search the slack, the hinges and the latest departures. */
import { byId } from "../forecast/draft.ts";
import { forecast } from "../forecast/forecast.ts";
import type { PlanSnapshot } from "../forecast/plan.ts";
import { createEngine } from "../forecast/propagate.ts";
import { STATUS } from "../forecast/run.ts";
import { glance } from "./glance.ts";
import { hingesOf } from "./hinges.ts";
import type { FlightSlack, SupplyReport } from "./report.ts";
import { firstWorse, turningInstants } from "./slack-search.ts";

const MINUTES_A_DAY = 1440;

/** The last minute before the first bad one. */
const slackMinutes = (firstWorseMinute: number): number | "any" =>
  firstWorseMinute === Infinity ? "any" : firstWorseMinute - 1;

/**
 * The supply check of a plan case. `onProgress` hears the share done, from 0 to 1, flight by flight; if it throws, the
 * check stops with that. Pure. Holds when nothing breaks the verdict.
 */
export const check = (plan: PlanSnapshot, onProgress?: (share: number) => void): SupplyReport => {
  const seen = forecast(plan);
  const seenGlance = glance(plan, seen);
  const { compiled } = seen;
  const engine = createEngine(compiled);
  const base = engine.go().sortieStatus.slice();
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
        compiled.sortieIsOut[sortie] === 0 &&
        base[sortie] !== STATUS.short &&
        arrivesAt <= (compiled.sortieLoadAt[sortie] ?? 0);
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
  onProgress?.(1);
  return {
    ...seenGlance,
    holds: seenGlance.verdict.word !== "No-go",
    slack,
    hinges,
    latestDeparture,
  };
};
