/** The answer in sentences: on screen, on paper and on the command line alike. */
import { missingCase } from "../ground/missing-case.ts";
import { formatMass } from "../format/mass.ts";
import { formatNumber, formatPercent } from "../format/number.ts";
import { shareText } from "../risk/answer-words.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import { findingSentence } from "../supply/finding-sentence.ts";
import { formatMinute } from "../format/time.ts";
import { spanWords } from "./leave-by-words.ts";
import { costText } from "./bracket-words.ts";
import type { Binding, Cure, FlightChange, ResupplyAnswer, Unheld } from "./answer.ts";
import { nameIn } from "../words/named.ts";

const flights = (count: number): string => `${formatNumber(count)} ${count === 1 ? "flight" : "flights"}`;

const propellant = (plan: PlanSnapshot, id: string): string => nameIn(plan.propellants, id).toLowerCase();

/** "with any one flight lost", or nothing. */
const withLost = (lost: ResupplyAnswer["lost"]): string =>
  lost === 0 ? "" : lost === 1 ? ", also with any one flight lost" : ", also with any two flights lost";

const amount = ({ measure }: ResupplyAnswer, value: number): string =>
  measure === "flights" ? flights(value) : `a cost of ${costText(value, Math.ceil)}`;

/** What is ruled out so far of numbers of flights, and that the rest is open. */
const leastWords = (least: number, upper: number): string =>
  least === 1
    ? `it cannot be done with none; that fewer than ${formatNumber(upper)} cannot do it is not proved`
    : `fewer than ${formatNumber(least)} are impossible so far`;

/** "3 further flights; fewer than 3 are impossible." */
export const proofSentence = (answer: ResupplyAnswer): string => {
  const { bracket, isProved, isStopped, measure, instants, unheld } = answer;
  const between =
    answer.isBetweenDepots === null ? "" : ` and ${answer.isBetweenDepots ? "" : "no "}flights between depots`;
  const dates = answer.moveSortiesDays === 0 ? "" : ", the sorties at the dates of this proposal";
  const scope = `with arrivals at ${formatNumber(instants)} instants${between}${dates}${withLost(answer.lost)}`;
  const sorties = unheld.length > 0 ? "the other sorties" : "every sortie";
  if (bracket.upper === null)
    return bracket.lower === null
      ? `Nothing holds every sortie, ${scope}: that is proved.`
      : `No plan was found so far, ${scope}${isStopped ? "; the search was stopped" : ""}.`;
  const isOne = measure === "cost" || bracket.upper === 1;
  const verb = answer.goal === "supplied" ? (isOne ? "supplies" : "supply") : isOne ? "fuels" : "fuel";
  const holds = `${amount(answer, bracket.upper)} ${verb} ${sorties}`;
  if (bracket.upper === 0 && unheld.length > 0 && answer.proposed?.held === 0)
    return `No sortie can be held, ${scope}: no flight is proposed.`;
  if (bracket.upper === 0)
    return `No flight need be added or chosen: ${sorties} ${unheld.length > 0 ? "are" : "is"} held by what stays.`;
  if (isProved)
    return measure === "flights"
      ? `${holds}; ${bracket.upper === 1 ? "it cannot be done with none" : `${formatNumber(bracket.upper - 1)} are impossible`}, ${scope}.`
      : `${holds}; less is impossible, ${scope}.`;
  const open =
    bracket.lower === null || bracket.lower <= 0
      ? ""
      : measure === "flights"
        ? `; ${leastWords(Math.ceil(bracket.lower - 1e-9), bracket.upper)}`
        : `; less than ${costText(bracket.lower, Math.floor)} is impossible so far`;
  return `${holds}${open}, ${scope}${isStopped ? "; the search was stopped" : ""}.`;
};

/** What is lost at the least, where that was asked. */
const lossSentence = ({ loss }: ResupplyAnswer): string | null => {
  if (loss === null) return null;
  const best = `${formatMass(loss.upperKg)} of what the sorties draw is lost on the way, in the tanks and by overflow`;
  if (loss.isProved && loss.upperKg - loss.lowerKg <= 1) return `${best}; that many flights cannot lose less.`;
  // Rounded down, so that the claim stays true as it is read.
  const step = loss.isProved || loss.lowerKg < 1000 ? 1 : 100;
  const least = formatNumber(Math.max(0, Math.floor(loss.lowerKg / step) * step));
  return loss.isProved
    ? `${best}; that many flights cannot lose less than ${least} kg.`
    : `${best}; less than ${least} kg is ruled out so far.`;
};

const tightestSentence = (plan: PlanSnapshot, { tightest }: ResupplyAnswer): string | null =>
  tightest === null
    ? null
    : `What binds: ${propellant(plan, tightest.propellantId)} for ${nameIn(plan.sorties, tightest.sortieId)}, with ${formatMass(tightest.marginKg)} to spare.`;

/** What is kept above the reserve; null: nothing was asked. */
const marginSentence = (plan: PlanSnapshot, { margins, standing }: ResupplyAnswer): string | null => {
  const kept = margins.filter(({ massKg }) => massKg > 0);
  if (kept.length === 0 || standing === "none") return null;
  const masses = kept.map((row) => `${formatMass(row.massKg)} of ${propellant(plan, row.propellantId)}`);
  const where = standing === "plan" ? "after each loading" : "after each loading that is held";
  return `At least ${masses.join(" and ")} stays above the reserve ${where}.`;
};

/** Which sorties move, and that other dates were tried without proof; null: they may not. */
const movedSentence = (
  plan: PlanSnapshot,
  { sortiesMoved, moveSortiesDays, standing }: ResupplyAnswer,
): string | null => {
  if (moveSortiesDays === 0) return null;
  const within = `${formatNumber(moveSortiesDays)} ${moveSortiesDays === 1 ? "day" : "days"}`;
  const proof = "Dates were tried of one sortie and of two together: that no others do better is not proved.";
  if (sortiesMoved.length === 0)
    return `No date within ${within} was found for a sortie that ${standing === "plan" ? "saves any" : "lets more be held"}. ${proof}`;
  const moves = sortiesMoved.map(({ sortieId, loadAt }) => {
    const byMs = loadAt - (plan.sorties.find(({ id }) => id === sortieId)?.loadAt ?? loadAt);
    return `${nameIn(plan.sorties, sortieId)} loads ${spanWords(Math.abs(byMs))} ${byMs < 0 ? "earlier" : "later"} (${formatMinute(loadAt)})`;
  });
  return `Sorties move: ${moves.join("; ")}. ${proof}`;
};

/** How likely the plan is, where a probability was asked: what the risk run says, and that it proves nothing of cost. */
const chanceSentence = ({ chance, lost }: ResupplyAnswer): string | null => {
  const last = chance?.judged.at(-1);
  if (chance == null || last === undefined) return null;
  const share = shareText(last.share, last.replications);
  const asked = formatPercent(chance.asked * 100, Number.isInteger(Math.round(chance.asked * 1000) / 10) ? 0 : 1);
  const certificate = `the plan for ${lost === 0 ? "no flight lost" : lost === 1 ? "any one flight lost" : "any two flights lost"}`;
  const runs = `${formatNumber(last.replications)} runs`;
  return chance.isReached
    ? `All sorties fly when planned with ${share} (${runs}), at least the ${asked} asked, by ${certificate}. That no cheaper plan is as likely is not proved.`
    : `The ${asked} asked was not reached: all sorties fly when planned with ${share} (${runs}) by ${certificate}, the likeliest found; further flights do not mend all that may fail.`;
};

/** What lacks is counted as the goal asks: to be supplied, the reserve has to stay too. */
export const unheldSentence = (
  plan: PlanSnapshot,
  { sortieId, propellantId, missingKg, why, fullKg, neededKg }: Unheld,
  { goal, margins = [] }: Pick<ResupplyAnswer, "goal"> & Partial<Pick<ResupplyAnswer, "margins">>,
): string => {
  const sortie = nameIn(plan.sorties, sortieId);
  if (why === "lander away") return `${sortie} cannot be held: its lander is still away.`;
  const counted =
    goal === "flies" ? "" : margins.length > 0 ? ", the reserve and the margin counted" : ", the reserve counted";
  const short =
    propellantId === null ? "" : ` by ${formatMass(missingKg)} of ${propellant(plan, propellantId)}${counted}`;
  const numbers =
    fullKg === undefined || neededKg === undefined
      ? ""
      : `: they give ${formatMass(fullKg)}, and ${formatMass(neededKg)} is asked of them`;
  return why === "maximum fill"
    ? `${sortie} is short${short}: full tanks are not enough${numbers}.`
    : `${sortie} is short${short}: no flight within the limits brings it in time.`;
};

const bindingWords = (plan: PlanSnapshot, { kind, ownerId }: Binding): string => {
  const depot = (): string => nameIn(plan.depots, ownerId ?? "");
  const craftClass = (): string => nameIn(plan.craftClasses, ownerId ?? "");
  switch (kind) {
    case "flights":
      return "the most flights allowed";
    case "budget":
      return "the budget";
    case "blackouts":
      return "the blackouts";
    case "windows":
      return "the instants at which flights can arrive";
    case "cadence":
      return `how often ${craftClass()} may arrive`;
    case "ports":
      return `the ports at ${depot()}`;
    case "tank room":
      return `the tanks at ${depot()}`;
    case "hulls":
      return `the hulls of ${craftClass()}`;
    case "turnaround":
      return `the turnaround of ${craftClass()}`;
    default:
      return missingCase(kind);
  }
};

/** The limits that bind, where not everything is held; null: everything is, or the search was stopped before. */
export const bindingSentence = (plan: PlanSnapshot, { unheld, binds, isStopped }: ResupplyAnswer): string | null => {
  if (unheld.length === 0 || isStopped || unheld.some(({ why }) => why === "lander away")) return null;
  if (binds.length === 0) return "No single limit binds: lifting any one of them alone was not found to be enough.";
  return `What binds: ${binds.map((row) => bindingWords(plan, row)).join("; or ")}. Without ${binds.length === 1 ? "it" : "one of these"} everything can be held.`;
};

export const cureSentence = (plan: PlanSnapshot, cure: Cure): string => {
  switch (cure.kind) {
    case "later sortie":
      return `${nameIn(plan.sorties, cure.sortieId)} ${formatNumber(cure.days)} ${cure.days === 1 ? "day" : "days"} later.`;
    case "tank":
      return `${formatMass(cure.massKg)} more tank for ${propellant(plan, cure.propellantId)} at ${nameIn(plan.depots, cure.depotId)}.`;
    case "port":
      return `${formatNumber(cure.ports)} ports at ${nameIn(plan.depots, cure.depotId)}.`;
    case "turnaround":
      return `A turnaround of ${formatNumber(cure.days)} days for ${nameIn(plan.craftClasses, cure.classId)}.`;
    case "hull":
      return `${formatNumber(cure.hulls)} hulls of ${nameIn(plan.craftClasses, cure.classId)}.`;
    case "flights":
      return `${flights(cure.most)} instead of the limit.`;
    case "budget":
      return `A budget of ${formatNumber(cure.most)}.`;
    default:
      return missingCase(cure);
  }
};

/** Why a flight is there: "Sortie 5 would lack 310 kg of oxygen". */
export const purposeWords = (plan: PlanSnapshot, { kind, isFor }: FlightChange): string => {
  if (kind === "left out") return "not needed";
  if (isFor === null) return "no sortie hinges on it alone";
  const lack = `${formatMass(isFor.missingKg)} of ${propellant(plan, isFor.propellantId)}`;
  return `without it ${nameIn(plan.sorties, isFor.sortieId)} lacks ${lack}`;
};

/** What is said of a proposal beside its proof. */
export const moreSentences = (plan: PlanSnapshot, answer: ResupplyAnswer): readonly string[] =>
  [
    movedSentence(plan, answer),
    chanceSentence(answer),
    marginSentence(plan, answer),
    lossSentence(answer),
    tightestSentence(plan, answer),
  ].filter((sentence) => sentence !== null);

/** All that is said of an answer, first things first. */
export const answerSentences = (plan: PlanSnapshot, answer: ResupplyAnswer): readonly string[] => [
  proofSentence(answer),
  ...moreSentences(plan, answer),
  ...answer.contradictions.map((row) => `Firm flights contradict each other: ${findingSentence(plan, row)}`),
  ...answer.unheld.map((row) => unheldSentence(plan, row, answer)),
  ...[bindingSentence(plan, answer)].filter((sentence) => sentence !== null),
  ...(answer.cures.length > 0
    ? [`Any one of these would cure it: ${answer.cures.map((row) => cureSentence(plan, row)).join(" ")}`]
    : []),
];
