/** The probability beside the verdict: its figure, what it is of, and what it rests on. The same in the window, on paper, in a terminal. */
import { formatNumber } from "../format/number.ts";
import type { SupplyGlance } from "../supply/answer.ts";
import { weightOf } from "../supply/weight.ts";
import { counted } from "../words/counted.ts";
import type { RiskAnswer } from "./answer.ts";
import { shareText } from "./answer-words.ts";

export interface VerdictChance {
  /** "83 ± 1 %". */
  readonly figure: string;
  /** "all 5 sorties fly when planned". */
  readonly of: string;
  /** "4 096 runs, 2 of 9 inputs assumed". */
  readonly basis: string;
  /** What the figure does not know of, a sentence; null: nothing that breaks the plan. */
  readonly without: string | null;
}

const assumedPart = ({ count, assumed }: RiskAnswer["inputs"]): string => {
  if (assumed === 0) return `${counted(count, "input")}, none assumed`;
  if (assumed === count) return count === 1 ? "its one input assumed" : `all ${formatNumber(count)} inputs assumed`;
  return `${formatNumber(assumed)} of ${formatNumber(count)} inputs assumed`;
};

/** null: nothing was run, or there is no sortie that could fly. */
export const verdictChance = (
  { replications, allFlyWhenPlanned, sorties, inputs, end }: RiskAnswer,
  { findings }: Pick<SupplyGlance, "findings">,
): VerdictChance | null => {
  if (replications === 0 || sorties.length === 0) return null;
  // Where the forecast's own sums do not close, its runs are worth no more than its verdict.
  if (findings.some(({ kind }) => kind === "does not balance")) return null;
  const many = sorties.length === 2 ? "both sorties fly" : `all ${formatNumber(sorties.length)} sorties fly`;
  const runs = `${formatNumber(replications)} runs`;
  const isPart = end === "stopped" || end === "not finished";
  return {
    figure: shareText(allFlyWhenPlanned, replications),
    of: `${sorties.length === 1 ? "the sortie flies" : many} when planned`,
    basis: `${isPart ? `${end} after ${runs}` : runs}, ${assumedPart(inputs)}`,
    without: findings.some((finding) => weightOf(finding) === "breaks")
      ? "It is of the supply alone: the findings that break the plan are not in it."
      : null,
  };
};

/** "83 ± 1 %: all 5 sorties fly when planned (4 096 runs, 2 of 9 inputs assumed)", and what is not in it. */
export const chanceSentence = ({ figure, of, basis, without }: VerdictChance): string =>
  `${figure}: ${of} (${basis}).${without === null ? "" : ` ${without}`}`;
