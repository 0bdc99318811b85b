/** A repair in sentences: on screen and on the command line alike. */
import { formatNumber } from "../format/number.ts";
import { formatMass } from "../format/mass.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import { formatMinute } from "../format/time.ts";
import { cureSentence, unheldSentence } from "./answer-words.ts";
import { spanWords } from "./leave-by-words.ts";
import type { FlightMove, RepairAnswer, FoundRepair } from "./repair-answer.ts";
import { nameIn } from "../words/named.ts";

const moveWords = ({ flight, fromArriveAt }: FlightMove): string => {
  const byMs = flight.arriveAt - fromArriveAt;
  return `${flight.name} ${spanWords(Math.abs(byMs))} ${byMs < 0 ? "earlier" : "later"} (departs ${formatMinute(flight.departAt)})`;
};

const list = (words: readonly string[]): string =>
  words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} and ${words.at(-1) ?? ""}`;

/** "Move Drover 4 21 days earlier (departs 2031-09-01 09:00 UTC): every sortie is supplied again." */
export const repairSentence = (
  { goal, leastChanges }: RepairAnswer,
  { moved, added, changes, isProvedLeast }: FoundRepair,
): string => {
  const parts = [
    moved.length === 0 ? null : `move ${list(moved.map(moveWords))}`,
    added.length === 0
      ? null
      : `add ${list(added.map(({ flight }) => `${flight.name} (departs ${formatMinute(flight.departAt)})`))}`,
  ].filter((words) => words !== null);
  const what = parts.join(", and ");
  const held = goal === "supplied" ? "every sortie is supplied" : "every sortie can be fuelled";
  const proof =
    changes === 1
      ? "; nothing less does"
      : changes <= leastChanges
        ? `; with fewer than ${formatNumber(changes)} changes it is impossible at the dates of arrival looked at`
        : isProvedLeast
          ? `; with fewer than ${formatNumber(added.length)} further flights, none moved, it is impossible`
          : "";
  return `${what.charAt(0).toUpperCase()}${what.slice(1)}: ${held}${proof}.`;
};

/** "On a hull that is lost then, Drover 6 and Drover 9 cannot fly."; null: none. */
export const goneSentence = (plan: PlanSnapshot, { goneIds }: RepairAnswer): string | null =>
  goneIds.length === 0
    ? null
    : `On a hull that is lost then, ${list(goneIds.map((id) => nameIn(plan.flights, id)))} cannot fly.`;

/** All that is said of a repair, first things first. */
export const repairSentences = (plan: PlanSnapshot, answer: RepairAnswer): readonly string[] => {
  const gone = [goneSentence(plan, answer)].filter((sentence) => sentence !== null);
  return [...gone, ...bareSentences(plan, answer)];
};

const bareSentences = (plan: PlanSnapshot, answer: RepairAnswer): readonly string[] => {
  const { standing, broken, ways, unheld, cures, isStopped, goal } = answer;
  if (standing === "holds") return ["Every sortie is held: nothing need change."];
  const short = broken.map(({ sortieId, propellantId, missingKg }) =>
    propellantId === null
      ? `${nameIn(plan.sorties, sortieId)}: its lander is still away`
      : `${nameIn(plan.sorties, sortieId)} lacks ${formatMass(missingKg)} of ${nameIn(plan.propellants, propellantId).toLowerCase()}`,
  );
  const first = `Unrepaired, ${list(short)}.`;
  if (standing === "repaired") return [first, ...ways.map((way) => repairSentence(answer, way))];
  return [
    first,
    isStopped ? "The search was stopped before a repair was found." : "No repair within the limits holds every sortie.",
    ...unheld.map((row) => unheldSentence(plan, row, { goal })),
    ...(cures.length === 0
      ? []
      : [`Any one of these would cure it: ${cures.map((row) => cureSentence(plan, row)).join(" ")}`]),
  ];
};
