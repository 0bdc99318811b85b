/** The timeline in two or three sentences, for those who hear it. */
import { formatDate } from "../../format/instant.ts";
import { findingSentence } from "../../../app/supply/finding-sentence.ts";
import { lookBackSentence } from "../../../app/ledger/look-back-words.ts";
import { counted } from "../../../app/words/counted.ts";
import type { TimelineModel } from "../model/timeline-model.ts";

const MAX_FINDINGS = 4;

/** What a resupply proposal that is shown would change. */
const proposalSentences = ({ proposal }: TimelineModel): readonly string[] => {
  if (proposal === null) return [];
  const added = proposal.added.map(({ name, arriveAt }) => `${name} arriving ${formatDate(arriveAt)}`);
  return [
    ...(added.length === 0 ? [] : [`A resupply proposal adds ${added.join(", ")}.`]),
    ...(proposal.leftOutIds.size === 0
      ? []
      : [`It leaves out ${counted(proposal.leftOutIds.size, "planned flight", "planned flights")}.`]),
  ];
};

export const summaryWords = (model: TimelineModel): string => {
  const { depot, whole, glance, plan } = model;
  const lookBack = lookBackSentence(plan);
  const sentences = [
    ...(lookBack === null ? [] : [lookBack]),
    `${depot.name} from ${formatDate(whole.fromAt)} to ${formatDate(whole.untilAt)}: ${counted(model.flights.length, "flight", "flights")}, ${counted(model.sorties.length, "sortie", "sorties")}.`,
    ...proposalSentences(model),
    `${glance.verdict.word}: ${glance.verdict.sentence}`,
    ...glance.findings.slice(0, MAX_FINDINGS).map((finding) => findingSentence(plan, finding)),
  ];
  const rest = glance.findings.length - MAX_FINDINGS;
  return [...sentences, ...(rest > 0 ? [`There are ${rest} more findings.`] : [])]
    .map((sentence) => sentence.charAt(0).toUpperCase() + sentence.slice(1))
    .join(" ");
};
