/** What a flight or a sortie means for the plan, in the sentences that stand at the top of the inspector. */
import type { FlightForecast, SortieForecast } from "../../app/forecast/outcome.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { Flight } from "../../app/entity/flight.ts";
import { DAY_MS } from "../../app/ground/quantity.ts";
import type { SortieSupply, SupplyAnswer } from "../../app/supply/answer.ts";
import { tightestSlack } from "../../app/supply/tightest-slack.ts";
import { shortReason, sortieSentence } from "../../app/supply/sortie-sentence.ts";
import { capitalised, listed } from "../../app/words/counted.ts";
import { formatInstant, formatMonthDay, formatSpan } from "../format/instant.ts";
import { formatMass, formatMassChange, formatShortage } from "../format/mass.ts";
import { formatSigned } from "../format/number.ts";
import { nameIn } from "../../app/words/named.ts";

/** "can slip by 6 days at most", or that any slip is harmless. Exact to a minute; told to a tenth of a day. */
const slipWords = (latestAt: number | null, departAt: number): string => {
  if (latestAt === null) return "It can slip to the end of the forecast with every sortie as it stands.";
  const spare = latestAt - departAt;
  if (spare < 60_000) return "It cannot slip at all.";
  return `It can slip by ${formatSpan(spare)} at most, to ${formatInstant(latestAt)}.`;
};

/** `answer` null: slack and hinges are still being worked out. */
export const flightConsequence = (
  plan: PlanSnapshot,
  flight: Flight,
  forecast: FlightForecast | undefined,
  answer: SupplyAnswer | null,
): readonly string[] => {
  const sentences: string[] = [];
  if (flight.status === "arrived" || flight.status === "lost" || flight.status === "cancelled")
    return [
      `This flight ${flight.status === "cancelled" ? "is cancelled" : `has been recorded as ${flight.status}`}; the forecast leaves it out.`,
    ];
  const delivered = (forecast?.lines ?? []).map((line) => ({
    name: nameIn(plan.propellants, line.propellantId).toLowerCase(),
    massKg: line.taken.reduce((sum, { massKg }) => sum + massKg, 0),
  }));
  if (forecast !== undefined && forecast.arrives)
    sentences.push(
      `Brings ${listed(delivered.map(({ name, massKg }) => `${formatMass(massKg)} of ${name}`)) || "nothing"} on ${formatInstant(forecast.arriveAt)}.`,
    );
  if (forecast?.isOverdue === true)
    sentences.push("It is overdue: the forecast assumes that it went as planned. Record what happened, or move it.");
  if (answer === null) return sentences;
  const latest = answer.latestDeparture.find(({ flightId }) => flightId === flight.id);
  const hinging = answer.hinges.filter(({ flightId }) => flightId === flight.id).map(({ sortieId }) => sortieId);
  if (latest !== undefined) sentences.push(slipWords(latest.at, flight.departAt));
  sentences.push(
    hinging.length === 0
      ? "No sortie hinges on it alone."
      : `${listed(hinging.map((id) => nameIn(plan.sorties, id)))} ${hinging.length === 1 ? "hinges" : "hinge"} on it.`,
  );
  return sentences;
};

/** The lines of a sortie: "Hydrogen: short by 1.90 t". */
const lineWords = (plan: PlanSnapshot, line: SortieSupply["lines"][number]): string => {
  const name = nameIn(plan.propellants, line.propellantId);
  if (line.status === "short") return `${name}: ${formatShortage(line.missingKg)} is missing to load.`;
  const margin = `${line.status === "thin" ? `\u2212${formatShortage(-line.marginOverReserveKg)}` : formatMassChange(line.marginOverReserveKg)} (${formatSigned(line.marginPercent, 1)}\u202f%)`;
  return line.status === "thin"
    ? `${name}: ${margin}, so it dips into the reserve.`
    : `${name}: ${margin} over the reserve.`;
};

const outcomeWords = (sortie: SortieSupply): string => {
  if (sortie.outcome === "waits and flies" && sortie.loadedAt !== null)
    return `It waits ${formatSpan(sortie.loadedAt - sortie.plannedAt)} and loads on ${formatInstant(sortie.loadedAt)}.`;
  return sortie.outcome === "stands down" ? "It stands down." : `It loads on ${formatInstant(sortie.plannedAt)}.`;
};

export const sortieConsequence = (
  plan: PlanSnapshot,
  supply: SortieSupply | undefined,
  forecast: SortieForecast | undefined,
  answer: SupplyAnswer | null,
): readonly string[] => {
  if (supply === undefined)
    return [
      forecast?.isOut === true ? "The lander is out; only its return is forecast." : "The forecast leaves it out.",
    ];
  const sentences = [
    ...(supply.landerIsAway ? [`${capitalised(shortReason(plan, supply))} when it is to load.`] : []),
    ...(supply.status === "not stated" ? [sortieSentence(plan, supply)] : []),
    outcomeWords(supply),
    ...supply.lines.map((line) => lineWords(plan, line)),
  ];
  if (supply.status === "short")
    sentences.push(
      supply.firstPossibleAt === null
        ? "It cannot load before the end of the forecast, even if it alone moves."
        : `Earliest loading if only this sortie moves: ${formatInstant(supply.firstPossibleAt)}.`,
    );
  const hinges = answer?.hinges.filter(({ sortieId }) => sortieId === supply.sortieId) ?? [];
  if (hinges.length > 0)
    sentences.push(`It hinges on ${listed(hinges.map(({ flightId }) => nameIn(plan.flights, flightId)))}.`);
  const tightest = tightestSlack(answer, supply.sortieId);
  if (tightest !== null) {
    const flight = plan.flights.find(({ id }) => id === tightest.flightId);
    if (flight !== undefined)
      sentences.push(
        `${flight.name} (${formatMonthDay(flight.departAt)}) can slip by ${formatSpan(tightest.slackDays * DAY_MS)} at most.`,
      );
  }
  return sentences;
};
