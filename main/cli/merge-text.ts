/** A merge as the terminal shows it: what was found, each conflict with both sides, what is or would be written. */
import { formatMinute } from "../../app/format/time.ts";
import type { ComparedMass, ConflictView, MergeView, RecordView } from "../../app/merge/merge-view.ts";
import { UNDO_WORDS, foundSentence, outcomeSentences, planLines } from "../../app/merge/outcome-words.ts";

const GRAM_DECIMALS = 3;

const recordLine = (side: string, { title, at, author, recordedAt, isTakenBack }: RecordView): string => {
  const when = at === null ? "" : `, ${formatMinute(at)}`;
  const by = author === null || recordedAt === null ? "" : ` (recorded by ${author}, ${formatMinute(recordedAt)})`;
  return `    ${side}: ${isTakenBack ? "reversed: " : ""}${title}${when}${by}`;
};

const kg = (value: number | null): string => (value === null ? "–" : `${value.toFixed(GRAM_DECIMALS)} kg`);

const massLine = ({ label, oursKg, theirsKg }: ComparedMass): string =>
  `    ${label}: ours ${kg(oursKg)}, theirs ${kg(theirsKg)}, difference ${kg((theirsKg ?? 0) - (oursKg ?? 0))}`;

const conflictLines = (conflict: ConflictView, isOpen: boolean): string[] => [
  `  ${conflict.about}${isOpen ? " (not decided)" : ""}: ${conflict.words}`,
  ...conflict.ours.map((record) => recordLine("ours", record)),
  ...conflict.theirs.map((record) => recordLine("theirs", record)),
  ...conflict.masses.map(massLine),
];

const listed = (heading: string, lines: readonly string[]): string[] =>
  lines.length === 0 ? [] : [heading, ...lines.map((line) => `  ${line}`)];

/** `state`: what became of it. */
export const mergeText = (view: MergeView, state: "written" | "not written" | "nothing to do"): string => {
  const open = new Set(view.undecided);
  const { outcome } = view;
  const heading = {
    written: "Written:",
    "not written": "Nothing was written. It would be:",
    "nothing to do": "Nothing to do: all that they recorded is here, or was decided for ours.",
  }[state];
  return [
    `${view.fileName}: ${foundSentence(view)}`,
    ...(view.conflicts.length === 0 ? [] : ["Conflicts:"]),
    ...view.conflicts.flatMap((conflict) => conflictLines(conflict, open.has(conflict.id))),
    ...(open.size === 0
      ? []
      : ["Decide them in the window, or all alike with --conflicts ours or --conflicts theirs."]),
    ...listed("It cannot be written as it stands:", outcome.blocked),
    heading,
    ...outcomeSentences(outcome).map((line) => `  ${line}`),
    ...(state === "written" ? [`  ${UNDO_WORDS}`] : []),
    ...listed("Flights and sorties follow:", outcome.statuses),
    ...listed("Rows that come along, because records speak of them:", outcome.rowsAlong),
    ...listed("The plans differ, and are not merged:", planLines(view)),
  ].join("\n");
};
