/** Go or no-go, and why: the page that a manager reads, and on which nothing is only understood from another. */
import { verdictChance } from "../../risk/verdict-chance.ts";
import { counted } from "../../words/counted.ts";
import type { ReportContext } from "../context.ts";
import type { Block } from "../model.ts";
import { campaignChart } from "./campaign-chart.ts";
import { pageOneFacts } from "./page-one-facts.ts";
import { sortiesAtAGlance } from "./sorties-at-a-glance.ts";

/** More sentences than these of one weight are not read on a first page; the supply check has more. */
const MAX_SENTENCES = 5;

/** The verdict with its probability, what breaks and conditions it, the campaign as picture and table, and the facts. */
export const verdictBlocks = (context: ReportContext): readonly Block[] => {
  const { holds, verdict } = context.main.supply;
  const chance = context.risk && verdictChance(context.risk.answer, context.main.supply);
  // What the sentence says already is not said twice.
  const isNew = (sentence: string): boolean => !verdict.sentence.includes(sentence);
  return [
    {
      kind: "verdict",
      holds,
      word: verdict.word,
      sentence: verdict.sentence,
      ...(chance === null
        ? {}
        : {
            chance: {
              figure: chance.figure,
              words: `${chance.of} (${chance.basis}).${chance.without === null ? "" : ` ${chance.without}`}`,
            },
          }),
    },
    ...headed("Breaks the plan", verdict.breaks.filter(isNew)),
    ...headed("Conditions", verdict.conditions.filter(isNew)),
    ...campaignChart(context),
    ...sortiesAtAGlance(context),
    { kind: "facts", items: pageOneFacts(context) },
  ];
};

const headed = (title: string, sentences: readonly string[]): readonly Block[] => {
  if (sentences.length === 0) return [];
  const shown = sentences.slice(0, MAX_SENTENCES);
  const rest = sentences.length - shown.length;
  return [
    { kind: "paragraph", text: title },
    {
      kind: "list",
      items: rest > 0 ? [...shown, `${counted(rest, "more", "more")}: see the supply check.`] : shown,
    },
  ];
};
