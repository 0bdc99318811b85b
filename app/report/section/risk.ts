/** How likely the plan holds: by sortie, when it ends, what the bad runs have in common, what is assumed, and how the other case differs. */
import { formatNumber } from "../../format/number.ts";
import { formatDate } from "../../format/time.ts";
import {
  assumedWords,
  changeText,
  endWords,
  intervalText,
  isClear,
  riskSentence,
  runsWords,
  shareText,
} from "../../risk/answer-words.ts";
import type { QuantileEstimate } from "../../risk/answer.ts";
import { causeSentence } from "../../risk/cause-words.ts";
import { figureColumn, instant, nothing, spanDays, text, wordColumn } from "../cell.ts";
import type { ReportContext, ReportedRisk } from "../context.ts";
import type { Block, Cell } from "../model.ts";

const days = (found: QuantileEstimate | undefined): Cell => (found === undefined ? nothing : spanDays(found.value));

export const riskBlocks = (context: ReportContext): readonly Block[] => {
  const { risk } = context;
  if (risk === null)
    return [{ kind: "paragraph", text: "No sortie is ahead: there is nothing that could fail to fly." }];
  const { answer, runNumber } = risk;
  const { plan } = context.main.view;
  const named = new Map(
    [...plan.sorties, ...plan.flights, ...plan.tanks, ...plan.propellants].map(({ id, name }) => [id, name]),
  );
  const nameOf = (id: string): string => named.get(id) ?? id;
  const end = answer.campaignEndAt;
  const sentences = [
    `${riskSentence(answer)} ${runsWords(answer)}${runNumber === null ? "" : `, kept as run ${String(runNumber)}`}.`,
    ...[endWords(answer), assumedWords(answer)].filter((words) => words !== null),
    end === null
      ? "In too few of the runs all sorties fly: there is no end of the campaign to state."
      : `Last return, of the runs in which all fly: P50 ${formatDate(end.p50.value)}, P80 ${formatDate(end.p80.value)}, P90 ${formatDate(end.p90.value)}.`,
    ...answer.remarks,
  ];
  const causes = answer.sorties.flatMap(({ sortieId, common }) =>
    common.slice(0, 1).map((cause) => causeSentence(nameOf(sortieId), cause, nameOf)),
  );
  return [
    ...sentences.map((sentence): Block => ({ kind: "paragraph", text: sentence })),
    {
      kind: "table",
      id: "risk",
      caption:
        "Share of the runs, ± its standard error. Delay of the loading against the plan as written, of the runs in which the sortie flies.",
      columns: [
        wordColumn("Sortie", 1.6),
        wordColumn("Loads", 1.3),
        figureColumn("Flies when planned", null, 1.6),
        figureColumn("Flies at all", null, 1.6),
        figureColumn("Late P50", "days", 1),
        figureColumn("P80", "days", 1),
        figureColumn("P90", "days", 1),
      ],
      rows: answer.sorties.map((row): readonly Cell[] => [
        text(nameOf(row.sortieId)),
        instant(plan.sorties.find(({ id }) => id === row.sortieId)?.loadAt ?? null),
        text(shareText(row.fliesWhenPlanned, answer.replications)),
        text(shareText(row.flies, answer.replications)),
        days(row.delayDays?.p50),
        days(row.delayDays?.p80),
        days(row.delayDays?.p90),
      ]),
    },
    ...(causes.length === 0 ? [] : [{ kind: "list", items: causes } as const]),
    ...differenceBlocks(context, risk),
  ];
};

/** The paired difference of two cases is surer than either probability. */
const differenceBlocks = (
  { compared, main }: ReportContext,
  { difference }: Pick<ReportedRisk, "difference">,
): readonly Block[] => {
  if (difference === null || compared === null) return [];
  const { plan } = main.view;
  const nameOf = (key: string): string => plan.sorties.find((row) => row.key === key)?.name ?? key;
  const rows = [
    { name: "all sorties", change: difference.allFlyWhenPlanned, ever: difference.allFly },
    ...difference.sorties.map(({ key, fliesWhenPlanned, flies }) => ({
      name: nameOf(key),
      change: fliesWhenPlanned,
      ever: flies,
    })),
  ];
  return [
    {
      kind: "table",
      id: "risk-compared",
      caption: `Probability in ${plan.planCase.name} less that in ${compared.view.plan.planCase.name}, percentage points: ${formatNumber(difference.replications)} pairs of runs under the same draws.`,
      columns: [
        wordColumn("Sortie", 1.6),
        figureColumn("Flies when planned", "points", 1.6),
        figureColumn("95 % interval", "points", 1.6),
        wordColumn("Told from nothing", 1.2),
        figureColumn("Flies at all", "points", 1.4),
      ],
      rows: rows.map(({ name, change, ever }): readonly Cell[] => [
        text(name),
        text(changeText(change)),
        text(intervalText(change)),
        text(isClear(change) ? "yes, at 95 %" : "no"),
        text(changeText(ever)),
      ]),
    },
  ];
};
