/** When the campaign ends: the distribution of the last return over the runs in which all sorties fly, how many fly, and what it takes on average. */
import { useCallback, useMemo } from "react";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { QuantileEstimate, RiskAnswer } from "../../app/risk/answer.ts";
import { shareText } from "../../app/risk/answer-words.ts";
import { formatDate } from "../format/instant.ts";
import { formatNumber } from "../format/number.ts";
import { Plot } from "../plot/plot.tsx";
import type { Column } from "../widgets/data-table/column.ts";
import { DataTable } from "../widgets/data-table/data-table.tsx";
import { ExpectedTable } from "./expected-table.tsx";
import { histogramPicture, type Mark } from "./histogram-picture.ts";

const HEIGHT = 260;

interface FlownRow {
  readonly flown: number;
  readonly count: number;
}

const flownColumns = (replications: number): readonly Column<FlownRow>[] => [
  { id: "flown", heading: "Sorties that fly", isNumber: true, value: ({ flown }) => flown },
  {
    id: "share",
    heading: "Of all runs",
    isNumber: true,
    value: ({ count }) => count,
    text: ({ count }) => {
      const value = count / replications;
      return shareText({ value, standardError: Math.sqrt((value * (1 - value)) / replications) }, replications);
    },
  },
];

const interval = ({ value, low, high }: QuantileEstimate): string =>
  `${formatDate(value)} (${formatDate(low)} to ${formatDate(high)})`;

const plannedEnd = (plan: PlanSnapshot): number =>
  Math.max(...plan.sorties.filter(({ status }) => status === "planned").map(({ returnAt }) => returnAt));

export const EndPanel = ({ plan, answer }: { plan: PlanSnapshot; answer: RiskAnswer }) => {
  const { campaignEndAt: end, replications, flownCounts } = answer;
  const marks = useMemo((): readonly Mark[] => {
    if (end === null) return [];
    const planned = plannedEnd(plan);
    return [
      { at: planned, words: `planned ${formatDate(planned)}`, isPlan: true },
      { at: end.p50.value, words: `P50 ${formatDate(end.p50.value)}` },
      { at: end.p80.value, words: `P80 ${formatDate(end.p80.value)}` },
      { at: end.p90.value, words: `P90 ${formatDate(end.p90.value)}` },
    ];
  }, [plan, end]);
  const compose = useCallback(
    (size: { readonly width: number; readonly height: number }) =>
      end === null ? { ...size, groups: [] } : histogramPicture({ histogram: end.histogram, marks }, size),
    [end, marks],
  );
  const notes = useMemo(
    () => [
      "return of the last sortie, of the runs in which all sorties fly",
      `${formatNumber(replications)} runs`,
      "dates in UTC",
    ],
    [replications],
  );
  const rows = useMemo(
    () => flownCounts.map((count, flown) => ({ count, flown })).filter(({ count }) => count > 0),
    [flownCounts],
  );
  return (
    <div className="risk-sheet">
      {end === null ? (
        <p className="form-advice">In too few of the runs all sorties fly: there is no end of the campaign to draw.</p>
      ) : (
        <>
          <p>
            The last sortie returns by {interval(end.p50)} in half of the runs in which all fly, by {interval(end.p80)}{" "}
            in 80 %, by {interval(end.p90)} in 90 %; in brackets, 95 % intervals.
          </p>
          <Plot title="Return of the last sortie" notes={notes} height={HEIGHT} label={null} compose={compose} />
        </>
      )}
      <DataTable
        caption="How many sorties fly before the forecast ends"
        columns={flownColumns(replications)}
        rows={rows}
        rowId={({ flown }) => String(flown)}
        empty="No run yet."
      />
      <ExpectedTable plan={plan} answer={answer} />
    </div>
  );
};
