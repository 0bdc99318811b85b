/** The timeline in two or three sentences, for those who hear it. */
import { formatDate } from "../../format/instant.ts";
import { findingSentence } from "../../../app/supply/finding-sentence.ts";
import type { TimelineModel } from "../model/timeline-model.ts";

const MOST_FINDINGS = 4;

const counted = (count: number, one: string, many: string): string =>
  `${count === 0 ? "no" : count} ${count === 1 ? one : many}`;

export const summaryWords = (model: TimelineModel): string => {
  const { depot, whole, glance, plan } = model;
  const short = glance.sorties.filter((supply) => supply.status === "short").length;
  const thin = glance.sorties.filter((supply) => supply.status === "thin").length;
  const sentences = [
    `${depot.name} from ${formatDate(whole.fromAt)} to ${formatDate(whole.untilAt)}: ${counted(model.flights.length, "flight", "flights")}, ${counted(model.sorties.length, "sortie", "sorties")}.`,
    `${counted(short, "sortie is", "sorties are")} short and ${counted(thin, "is", "are")} thin.`,
    ...glance.findings.slice(0, MOST_FINDINGS).map((finding) => findingSentence(plan, finding)),
  ];
  const rest = glance.findings.length - MOST_FINDINGS;
  return [...sentences, ...(rest > 0 ? [`There are ${rest} more findings.`] : [])]
    .map((sentence) => sentence.charAt(0).toUpperCase() + sentence.slice(1))
    .join(" ");
};
