/** Go or no-go, and why: the page that a manager reads. */
import { isShort } from "../../supply/weight.ts";
import { counted, listed } from "../../words/counted.ts";
import type { ReportContext } from "../context.ts";
import type { Block } from "../model.ts";
import { flightName } from "../names.ts";

/** More sentences than these of one weight are not read on a first page; the supply check has them all. */
const MOST_SENTENCES = 12;

/** The verdict as it is made for every form, what breaks and conditions it, and what each sortie hinges on. */
export const verdictBlocks = (context: ReportContext): readonly Block[] => {
  const { holds, verdict } = context.main.supply;
  return [
    { kind: "verdict", holds, word: verdict.word, sentence: verdict.sentence },
    ...headed("Breaks the plan", verdict.breaks),
    ...headed("Conditions", verdict.conditions),
    ...headed("Hinges on", hingeSentences(context)),
  ];
};

const headed = (title: string, sentences: readonly string[]): readonly Block[] => {
  if (sentences.length === 0) return [];
  const shown = sentences.slice(0, MOST_SENTENCES);
  const rest = sentences.length - shown.length;
  return [
    { kind: "paragraph", text: title },
    {
      kind: "list",
      items: rest > 0 ? [...shown, `${counted(rest, "more", "more")}: the supply check has them all.`] : shown,
    },
  ];
};

/** More names than these in one sentence are not read. */
const MOST_NAMED = 10;

const hingeSentences = (context: ReportContext): readonly string[] => {
  const { supply, view } = context.main;
  return supply.sorties.flatMap((sortie) => {
    const flights = supply.hinges
      .filter((hinge) => hinge.sortieId === sortie.sortieId)
      .map((hinge) => flightName(view.plan, hinge.flightId));
    if (flights.length === 0) return [];
    const loss = flights.length === 1 ? "its loss" : "the loss of any one of them";
    const effect = isShort(sortie) ? "keeps it from flying at all" : "makes it short";
    return [`${sortie.name} hinges on ${listed(flights, MOST_NAMED)}: ${loss} ${effect}.`];
  });
};
