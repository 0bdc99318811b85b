/** What is said of a flight, a sortie, a level: for those who hear the timeline, and for the hint at the pointer. */
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import type { Flight } from "../../../app/entity/flight.ts";
import type { Sortie } from "../../../app/entity/sortie.ts";
import { shortReason } from "../../../app/supply/sortie-sentence.ts";
import { missingCase } from "../../../app/ground/missing-case.ts";
import type { SortieSupply } from "../../../app/supply/answer.ts";
import { levelOf } from "../../../app/picture/curve.ts";
import { formatDate, formatInstant } from "../../format/instant.ts";
import { type MassUnit, formatMass } from "../../format/mass.ts";
import { formatNumber } from "../../format/number.ts";
import type { LevelSource } from "../../../app/picture/level/level-source.ts";
import type { TimelineModel } from "../model/timeline-model.ts";

const dayWord = (days: number): string =>
  `${formatNumber(days, days % 1 === 0 ? 0 : 1)} ${days === 1 ? "day" : "days"}`;

const propellantName = (plan: PlanSnapshot, id: string | null): string =>
  plan.propellants.find((row) => row.id === id)?.name.toLowerCase() ?? "propellant";

/** "a, b and c" */
const listed = (parts: readonly string[]): string =>
  parts.length < 2 ? parts.join("") : `${parts.slice(0, -1).join(", ")} and ${parts.at(-1) ?? ""}`;

/** "Packhorse 7, planned, departs 2031-02-20, arrives 2031-02-24, at the port 5 days, with 4.20 t of hydrogen". */
export const flightWords = (plan: PlanSnapshot, flight: Flight, unit: MassUnit): string => {
  const loads = flight.loads
    .filter((load) => load.loadedKg > 0)
    .map((load) => `${formatMass(load.loadedKg, unit)} of ${propellantName(plan, load.propellantId)}`);
  return [
    flight.name,
    flight.status,
    `departs ${formatInstant(flight.departAt)}`,
    `arrives ${formatInstant(flight.arriveAt)}`,
    `at the port ${dayWord(flight.berthDays)}`,
    ...(loads.length === 0 ? [] : [`with ${listed(loads)}`]),
  ].join(", ");
};

/** "short by 1.90 t of hydrogen", "low on oxygen", "supplied". */
export const supplyWords = (plan: PlanSnapshot, supply: SortieSupply, unit: MassUnit): string => {
  const name = propellantName(plan, supply.limitingPropellantId);
  switch (supply.status) {
    case "supplied":
      return "supplied";
    case "thin":
      return `low on ${name}`;
    case "short":
      return supply.landerIsAway ? `short, as ${shortReason(plan, supply, unit)}` : shortReason(plan, supply, unit);
    case "not stated":
      return "without a stated need of propellant";
    default:
      return missingCase(supply.status);
  }
};

/** "Sortie 4, short by 1.90 t of hydrogen, stands down, loads 2031-03-14, returns 2031-03-28". */
export const sortieWords = (
  plan: PlanSnapshot,
  sortie: Sortie,
  supply: SortieSupply | undefined,
  unit: MassUnit,
): string => {
  const outcome = supply === undefined || supply.outcome === "flies" ? [] : [supply.outcome];
  const waits = supply?.outcome === "waits and flies" && supply.loadedAt !== null;
  return [
    sortie.name,
    supply === undefined ? sortie.status : supplyWords(plan, supply, unit),
    ...outcome,
    `loads ${formatInstant(sortie.loadAt)}${waits ? `, in the forecast ${formatInstant(supply.loadedAt)}` : ""}`,
    `returns ${formatInstant(sortie.returnAt)}`,
  ].join(", ");
};

/** "Hydrogen from 2031-01-01 to 2031-06-01: 20.1 t at the start, 12.3 t at the end; maximum fill 30 t, reserve 2 t". */
export const levelWords = (
  model: TimelineModel,
  level: LevelSource,
  fromAt: number,
  untilAt: number,
  unit: MassUnit,
): string => {
  const at = (instant: number): number | null => levelOf(level.past, instant) ?? levelOf(level.forecast, instant);
  const start = Math.max(fromAt, model.whole.fromAt);
  const end = Math.min(untilAt, model.whole.untilAt);
  const first = at(start) ?? at(model.plan.asOfAt);
  const last = at(end);
  const below = model.glance.findings.filter(
    (finding) =>
      finding.kind === "below reserve" &&
      finding.depotId === model.depot.id &&
      finding.propellantId === level.propellant.id,
  ).length;
  return [
    `${level.propellant.name} from ${formatDate(start)} to ${formatDate(end)}`,
    ...(first === null ? [] : [`${formatMass(first, unit)} at the start`]),
    ...(last === null ? [] : [`${formatMass(last, unit)} at the end`]),
    `maximum fill ${formatMass(level.fillKg, unit)}`,
    `reserve ${formatMass(level.reserveKg, unit)}`,
    ...(below === 0 ? [] : [`below its reserve ${below === 1 ? "once" : `${below} times`} in the forecast`]),
  ].join(", ");
};
