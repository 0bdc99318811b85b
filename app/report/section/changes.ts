/** What changed since the last issue, and how this case differs from the one it is compared with. */
import { comparePlans } from "../../ledger/compare-plans.ts";
import { formatDate, formatMinute } from "../../format/time.ts";
import type { EditStep } from "../../ledger/ledger-view.ts";
import type { EarlierIssue, ReportContext } from "../context.ts";
import type { Block } from "../model.ts";
import { movedSince } from "./page-one-facts.ts";

/** At most so many steps are written out; the journal has them all. */
const MAX_STEPS = 40;

export const changeBlocks = (context: ReportContext): readonly Block[] => [
  ...sinceBlocks(context),
  ...differences(context),
];

const sinceBlocks = (context: ReportContext): readonly Block[] => {
  const { since, changes } = context;
  const from =
    since === null
      ? "This plan case was not issued before: these are all its ledger's steps of editing"
      : `Since issue ${since.number} of ${formatDate(since.issuedAt)}`;
  return [
    ...(since === null ? [] : standingBlocks(context, since)),
    ...(changes.length === 0
      ? [
          {
            kind: "paragraph",
            text: since === null ? "Nothing was edited yet." : `${from}, nothing was edited.`,
          } as const,
        ]
      : [{ kind: "paragraph", text: `${from}, the latest step first:` } as const, stepList(changes)]),
  ];
};

const stepList = (changes: readonly EditStep[]): Block => {
  const items = changes.slice(0, MAX_STEPS).map(stepLine);
  const left = changes.length - items.length;
  return { kind: "list", items: left > 0 ? [...items, `and ${left} earlier ones, in the edit history`] : items };
};

const stepLine = (step: EditStep): string =>
  `${formatMinute(step.at)}, ${step.author}: ${step.state === "done" ? "" : "undone: "}${step.label}` +
  (step.reason === "" ? "" : ` (${step.reason})`);

/** Which sorties stand otherwise than in the earlier issue; that none does is said too. */
const standingBlocks = (context: ReportContext, since: EarlierIssue): readonly Block[] => {
  const items = movedSince(context, since);
  return items.length === 0
    ? [{ kind: "paragraph", text: `Every sortie stands as in issue ${since.number}.` }]
    : [
        { kind: "paragraph", text: `Against issue ${since.number}:` },
        { kind: "list", items },
      ];
};

const differences = (context: ReportContext): readonly Block[] => {
  if (!context.compared) return [];
  const here = context.main.view.plan;
  const there = context.compared.view.plan;
  // How this case differs from the other: as "after" it is what the sentences speak of.
  const items = [
    ...comparePlans(there, here).map(({ name, words }) => `${name}: ${words}.`),
    ...context.main.supply.sorties.flatMap((sortie) => {
      const other = context.compared?.supply.sorties.find((each) => each.sortieKey === sortie.sortieKey);
      return other && other.status !== sortie.status
        ? [`${sortie.name} is ${sortie.status} here, ${other.status} there.`]
        : [];
    }),
  ];
  return [
    { kind: "paragraph", text: `Against the plan case “${there.planCase.name}”` },
    {
      kind: "list",
      items:
        items.length > 0 ? items : ["Both plan cases are alike: the same flights, sorties, loads, dates and losses."],
    },
  ];
};
