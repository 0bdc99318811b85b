/** What the runs in which a sortie does not fly when planned have in common, in a sentence. */
import { missingCase } from "../ground/missing-case.ts";
import { formatNumber, NARROW_SPACE } from "../format/number.ts";
import type { CommonCause } from "./answer.ts";

const percent = (share: number): string => `${formatNumber(share * 100)}${NARROW_SPACE}%`;

const whatWords = (what: CommonCause["what"], nameOf: (id: string) => string): string => {
  switch (what.kind) {
    case "flight lost":
      return `${nameOf(what.flightId)} was lost`;
    case "flight late":
      return `${nameOf(what.flightId)} slipped over ${formatNumber(what.moreThanDays)} days`;
    case "cooler failed":
      return `the cooler of ${nameOf(what.tankId)} failed`;
    case "boil-off high":
      return `${nameOf(what.tankId)} lost more than planned`;
    default:
      return missingCase(what);
  }
};

/** "In 71 % of the runs in which Sortie 4 does not fly when planned, Drover 4 slipped over 20 days (in 12 % of all runs)." */
export const causeSentence = (sortieName: string, cause: CommonCause, nameOf: (id: string) => string): string =>
  `In ${percent(cause.ofBad.value)} of the runs in which ${sortieName} does not fly when planned, ${whatWords(cause.what, nameOf)} (in ${percent(cause.ofAll.value)} of all runs).`;
