/** What going back to a copy would change, in sentences: the same in the window and on the command line. */
import type { CaseGoingBack, GoingBack, KeptCopy, RowsGoingBack } from "./kept-copy.ts";

const many = (count: number, one: string, more: string): string => `${count} ${count === 1 ? one : more}`;

/** "Day 2031-02-20", or the name that a person gave. */
export const copyTitle = ({ kind, name }: KeptCopy): string => (kind === "day" ? `Day ${name}` : name);

const rowsSentence = (rows: RowsGoingBack, one: string, more: string): readonly string[] => {
  const parts = [
    rows.gone > 0 ? `${many(rows.gone, one, more)} ${rows.gone === 1 ? "goes" : "go"}` : "",
    rows.back > 0 ? `${many(rows.back, one, more)} ${rows.back === 1 ? "comes" : "come"} back` : "",
    rows.changed > 0 ? `${many(rows.changed, one, more)} ${rows.changed === 1 ? "becomes" : "become"} what it was` : "",
  ].filter((part) => part !== "");
  return parts.length === 0 ? [] : [`${parts.join("; ")}.`.replace("become what it was", "become what they were")];
};

const caseSentence = ({ name, change, flights, sorties }: CaseGoingBack): string => {
  const what = `${many(flights, "flight", "flights")}, ${many(sorties, "sortie", "sorties")}`;
  if (change === "goes") return `The case ${name} goes (${what}).`;
  if (change === "comes back") return `The case ${name} comes back (${what}).`;
  return `${name}: ${what} would be other.`;
};

/** How far the copy lies behind. */
export const sinceSentence = ({ editsSince, isNothing }: GoingBack): string => {
  if (isNothing) return "The ledger is as this copy has it: going back would change nothing.";
  if (editsSince === null)
    return "The copy has another edit history than the ledger: it is of another ledger that lay here, or one of the two was put here from elsewhere.";
  return `${many(editsSince, "edit was", "edits were")} made since, undone ones counted; going back takes ${editsSince === 1 ? "it" : "them"} out, with ${editsSince === 1 ? "its" : "their"} history.`;
};

/** Everything that would change, a sentence each; none where nothing would. */
export const goingBackSentences = (view: GoingBack): readonly string[] => [
  ...view.cases.map(caseSentence),
  ...rowsSentence(view.entries, "journal entry", "journal entries"),
  ...rowsSentence(view.readings, "gauge reading", "gauge readings"),
  ...rowsSentence(
    view.others,
    "other row (depots, tanks, craft, profiles)",
    "other rows (depots, tanks, craft, profiles)",
  ),
  ...(view.issuesGone > 0
    ? [
        `${many(view.issuesGone, "issue of a report goes", "issues of reports go")}, and the next issue gets a number that was given already: tell those who have it.`,
      ]
    : []),
];

/** What makes going back safe. */
export const KEPT_FIRST = "The ledger as it is now is kept first, as a named state to which you can go back again.";
