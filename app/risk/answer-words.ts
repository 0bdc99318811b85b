/** A risk answer in words and figures, the same on screen, paper and command line. */
import { missingCase } from "../ground/missing-case.ts";
import { formatNumber, formatSigned, NARROW_SPACE } from "../format/number.ts";
import type { Estimate, RiskAnswer, Share } from "./answer.ts";

/** As many decimals of a percentage as its standard error bears: one digit of the error. */
const decimalsOf = (errorPercent: number): number => {
  if (errorPercent >= 0.95) return 0;
  return errorPercent >= 0.095 ? 1 : 2;
};

/** With none or all of n replications: the 95 % bound, by the rule of three. */
const THREE = 3;

/** "83 ± 1 %"; where it happened in none or all of the replications, the bound that this proves: "> 99.9 %". */
export const shareText = ({ value, standardError }: Share, replications: number): string => {
  if (replications === 0) return "–";
  if (value === 0 || value === 1) {
    const bound = Math.min(100, (THREE / replications) * 100);
    const decimals = bound >= 1 ? 0 : Math.min(4, Math.ceil(-Math.log10(bound)));
    return value === 1
      ? `>${NARROW_SPACE}${formatNumber(Math.floor((100 - bound) * 10 ** decimals) / 10 ** decimals, decimals)}${NARROW_SPACE}%`
      : `<${NARROW_SPACE}${formatNumber(Math.ceil(bound * 10 ** decimals) / 10 ** decimals, decimals)}${NARROW_SPACE}%`;
  }
  const decimals = decimalsOf(standardError * 100);
  return `${formatNumber(value * 100, decimals)}${NARROW_SPACE}±${NARROW_SPACE}${formatNumber(standardError * 100, decimals)}${NARROW_SPACE}%`;
};

/** A change of a probability, in percentage points: "+4.1 ± 0.6". */
export const changeText = ({ value, standardError }: Estimate): string => {
  const decimals = decimalsOf(standardError * 100);
  return `${formatSigned(value * 100, decimals)}${NARROW_SPACE}±${NARROW_SPACE}${formatNumber(standardError * 100, decimals)}`;
};

/** Half-width of a 95 % interval in standard errors. */
const WIDE = 1.96;

/** The 95 % interval of a change, in percentage points: "−5.3 to −2.9". */
export const intervalText = ({ value, standardError }: Estimate): string => {
  const decimals = decimalsOf(standardError * 100);
  const end = (by: number): string => formatSigned((value + by * standardError) * 100, decimals);
  return `${end(-WIDE)} to ${end(WIDE)}`;
};

/** Whether an effect is told from nothing, at 95 %. */
export const isClear = ({ value, standardError }: Estimate): boolean => Math.abs(value) > WIDE * standardError;

/** "12 of 14 inputs are assumed: …"; null where none is. */
export const assumedWords = ({ inputs }: Pick<RiskAnswer, "inputs">): string | null => {
  const { count, assumed } = inputs;
  if (assumed === 0) return null;
  const many =
    assumed === count
      ? `All ${formatNumber(count)} inputs are`
      : `${formatNumber(assumed)} of ${formatNumber(count)} inputs ${assumed === 1 ? "is" : "are"}`;
  return `${count === 1 ? "The one input is" : many} assumed. A probability from assumed inputs is an opinion: state what is known, with its source, before anything is decided by it.`;
};

/** How the run ended, where that must be said; null: it ran as asked. */
export const endWords = ({ end, replications }: Pick<RiskAnswer, "end" | "replications">): string | null => {
  const runs = formatNumber(replications);
  switch (end) {
    case "number reached":
    case "error reached":
      return null;
    case "stopped":
      return `Stopped after ${runs} runs. The numbers hold for these runs; their errors are as wide as they say.`;
    case "not finished":
      return `Not finished: ${runs} runs so far.`;
    default:
      return missingCase(end);
  }
};

/** The answer in a sentence: what a manager asks first. */
export const riskSentence = (answer: RiskAnswer): string => {
  const { replications, allFlyWhenPlanned, allFly, sorties } = answer;
  if (sorties.length === 0) return "No sortie is ahead: there is nothing that could fail to fly.";
  const one = sorties.length === 1;
  const when = shareText(allFlyWhenPlanned, replications);
  const ever = shareText(allFly, replications);
  return one
    ? `The sortie flies when planned in ${when} of the runs; in ${ever} it flies at all.`
    : `All ${formatNumber(sorties.length)} sorties fly when planned in ${when} of the runs; in ${ever} all fly, some later.`;
};

/** "4 096 runs, seed 1". */
export const runsWords = ({ replications, seed }: Pick<RiskAnswer, "replications" | "seed">): string =>
  `${formatNumber(replications)} runs, seed ${String(seed)}`;
