/** What a campaign needs in tanker flights, in words. */
import { missingCase } from "../ground/missing-case.ts";
import { formatMass } from "../format/mass.ts";
import { formatNumber } from "../format/number.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import { formatDate } from "../format/time.ts";
import type { NeededFlights, Unmet } from "./needed-flights.ts";
import { nameIn } from "../words/named.ts";

const flights = (count: number): string => `${formatNumber(count)} ${count === 1 ? "flight" : "flights"}`;

/** "a", "a and b", "a, b and c". */
const listed = (names: readonly string[]): string =>
  names.length < 2 ? names.join("") : `${names.slice(0, -1).join(", ")} and ${names.at(-1) ?? ""}`;

/** Why added flights of the class do not help, as one sentence without its full stop. */
const unmetWords = (plan: PlanSnapshot, { sortieId, why }: Unmet, tankerName: string): string => {
  const sortie = nameIn(plan.sorties, sortieId);
  const propellant = (id: string): string => nameIn(plan.propellants, id).toLowerCase();
  switch (why.kind) {
    case "lander away":
      return `no flight helps ${sortie}: its lander is still away then`;
    case "not brought":
      return `flights of ${tankerName} do not help ${sortie}: they bring no ${propellant(why.propellantId)}`;
    case "maximum fill":
      return `no flight helps ${sortie}: with the reserve it takes ${formatMass(why.requiredKg)} of ${propellant(why.propellantId)}, and full tanks give ${formatMass(why.fullKg)}`;
    case "too late":
      return `${tankerName} comes too late for ${sortie}, even if it leaves at once`;
    case "no port":
      return `no port is free for ${tankerName} in time for ${sortie}`;
    case "too many":
      return `${sortie} is not supplied by ${flights(why.tried)} more of ${tankerName} either`;
    default:
      return missingCase(why);
  }
};

/** For a cell: "2 fewer", "1 more", "as planned", "no number helps". */
export const againstPlan = (needed: NeededFlights): string => {
  if (needed.unmet !== null) return "no number helps";
  if (needed.added.length > 0) return `${formatNumber(needed.added.length)} more`;
  if (needed.sparedIds.length > 0) return `${formatNumber(needed.sparedIds.length)} fewer`;
  return "as planned";
};

/** One sentence: which flights can be left out, or how many more there must be and until when, or why none helps. */
export const neededSentence = (plan: PlanSnapshot, needed: NeededFlights, tankerName: string): string => {
  if (needed.unmet !== null) return `${unmetWords(plan, needed.unmet, tankerName)}.`;
  if (needed.added.length > 0) {
    const dates = [...new Set(needed.added.map(({ arriveAt }) => formatDate(arriveAt)).toSorted())];
    return `${flights(needed.added.length)} of ${tankerName} more, there by ${listed(dates)}.`;
  }
  if (needed.sparedIds.length === 0)
    return needed.isMostSpared ? "every planned flight is needed." : "no flight was found that can be left out.";
  const names = listed(needed.sparedIds.map((id) => nameIn(plan.flights, id)));
  return `${names} can be left out${needed.isMostSpared ? "" : "; perhaps more, the search was cut short"}.`;
};
