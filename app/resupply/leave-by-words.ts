/** Latest and earliest departures in sentences: on screen, on paper, in the calendar and on the command line alike. */
import { missingCase } from "../ground/missing-case.ts";
import { formatNumber } from "../format/number.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import { DAY_MS } from "../ground/quantity.ts";
import { formatMinute } from "../format/time.ts";
import type { ClassLeaveBy, EarliestBy, FaresWorse, LeaveBy } from "./leave-by-answer.ts";
import { nameIn } from "../words/named.ts";

/** "12.3 days"; whole minutes rounded down to a tenth of a day, so that nobody is told more than there is. */
export const spanWords = (ms: number): string => {
  const tenths = Math.floor((10 * ms) / DAY_MS) / 10;
  if (tenths < 0.1) return `${formatNumber(Math.floor(ms / 60_000))} min`;
  return `${formatNumber(tenths)} ${tenths === 1 ? "day" : "days"}`;
};

/** "a minute later Sortie 5 would use the reserve" */
export const worseWords = (plan: PlanSnapshot, { sortieId, becomes }: FaresWorse): string => {
  const sortie = nameIn(plan.sorties, sortieId);
  switch (becomes) {
    case "uses the reserve":
      return `${sortie} would use the reserve`;
    case "waits":
      return `${sortie} would have to wait`;
    case "does not fly":
      return `${sortie} would not fly`;
    default:
      return missingCase(becomes);
  }
};

/** What keeps a flight from leaving earlier. */
export const earliestWords = (plan: PlanSnapshot, by: EarliestBy): string => {
  switch (by.kind) {
    case "as-of":
      return "earlier lies before the as-of instant";
    case "tank room":
      return `earlier, there is no room for all that ${nameIn(plan.flights, by.flightId)} brings`;
    case "origin":
      return `earlier, its depot of origin would give ${nameIn(plan.flights, by.flightId)} less`;
    case "port":
      return `earlier, ${nameIn(plan.flights, by.flightId)} finds no port free`;
    case "hull":
      return `earlier, the hull of ${nameIn(plan.flights, by.flightId)} is not back from the flight before`;
    case "sortie":
      return `earlier, ${worseWords(plan, by)}`;
    default:
      return missingCase(by);
  }
};

/** What a later departure meets before the latest one. */
const cautionsOf = ({ portTakenFromAt, hullNeededFromAt }: LeaveBy): readonly string[] =>
  [
    portTakenFromAt === null ? null : `from ${formatMinute(portTakenFromAt)} on it finds no port free`,
    hullNeededFromAt === null
      ? null
      : `from ${formatMinute(hullNeededFromAt)} on its hull is not back for its next flight`,
  ].filter((words) => words !== null);

/** Why not later and why not earlier, for a table. */
export const leaveByReason = (plan: PlanSnapshot, row: LeaveBy): string =>
  [
    row.latestBy === null ? "however late, no sortie fares worse" : `later, ${worseWords(plan, row.latestBy)}`,
    ...cautionsOf(row),
    earliestWords(plan, row.earliestBy),
  ].join("; ");

/** "All 4 flights of Drover together can slip by at most 12.3 days: then Sortie 5 would use the reserve." */
export const classLeaveBySentence = (plan: PlanSnapshot, row: ClassLeaveBy): string => {
  const name = nameIn(plan.craftClasses, row.classId);
  const count = row.flightIds.length;
  const who = count === 1 ? `The flight of ${name}` : `All ${formatNumber(count)} flights of ${name} together`;
  const early =
    row.earliestAdvanceMs < 60_000
      ? `They cannot leave earlier: ${earliestWords(plan, row.earliestBy)}.`
      : `They can leave up to ${spanWords(row.earliestAdvanceMs)} earlier; ${earliestWords(plan, row.earliestBy)}.`;
  if (row.latestSlipMs === null || row.latestBy === null)
    return `${who} can slip to the end of the plan: no sortie fares worse. ${early}`;
  return `${who} can slip by at most ${spanWords(row.latestSlipMs)}: then ${worseWords(plan, row.latestBy)}. ${early}`;
};
