/** What a merge would write, in sentences. */
import type { MergeOutcome, MergeView, PlanDifference } from "./merge-view.ts";

/** "1 entry", "12 entries". */
export const counted = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`;

/** A sentence for each thing that is written; empty where nothing is. */
export const outcomeSentences = (outcome: MergeOutcome): readonly string[] => {
  const { entries, takenBack, bookedAnew, readings, withdrawn } = outcome;
  const all: readonly (readonly [number, string, string])[] = [
    [entries, "journal entry of theirs is written", "journal entries of theirs are written"],
    [readings, "gauge reading of theirs is kept", "gauge readings of theirs are kept"],
    [takenBack, "entry of ours is reversed", "entries of ours are reversed"],
    [withdrawn, "reading of ours is withdrawn", "readings of ours are withdrawn"],
    [
      bookedAnew,
      "level of ours stands and is booked anew, because records come in before it",
      "levels of ours stand and are booked anew, because records come in before them",
    ],
  ];
  return all.filter(([count]) => count > 0).map(([count, one, many]) => `${counted(count, one, many)}.`);
};

/** "flight: 2 only here, 1 different". */
const differenceWords = ({ kind, onlyHere, onlyThere, different }: PlanDifference): string => {
  const parts = [
    [onlyHere, "only here"],
    [onlyThere, "only there"],
    [different, "different"],
  ] as const;
  return `${kind}: ${parts
    .filter(([count]) => count > 0)
    .map(([count, words]) => `${count} ${words}`)
    .join(", ")}`;
};

/** All that differs between the plans, a line each: plan cases that both have difference by difference, other rows counted. */
export const planLines = ({ planDifferences, caseDifferences }: MergeView): readonly string[] => [
  ...caseDifferences.flatMap(({ name, words, more }) => [
    ...words.map((line) => `${name}: ${line}`),
    ...(more === 0 ? [] : [`${name}: ${counted(more, "further difference", "further differences")}`]),
  ]),
  ...planDifferences.map(differenceWords),
];

/** "9 records say the same on both sides; 3 come in, 1 must be decided, 2 are only here." */
export const foundSentence = ({ alike, incomingCount, conflicts, onlyHere }: MergeView): string =>
  `${counted(alike, "record says", "records say")} the same on both sides. ${incomingCount === 0 ? "Nothing" : counted(incomingCount, "record", "records")} of theirs ${incomingCount > 1 ? "come" : "comes"} in as recorded, ${conflicts.length === 0 ? "nothing" : counted(conflicts.length, "conflict", "conflicts")} must be decided. ${onlyHere === 0 ? "No record is" : counted(onlyHere, "record is", "records are")} only here.`;

/** How a merge is taken back. */
export const UNDO_WORDS = "It is one step: Undo reverses every entry and puts every row as it was. Nothing is deleted.";
