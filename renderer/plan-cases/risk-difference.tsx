/** How the probabilities of two plan cases differ, run by run under the same draws: the difference is surer than either. */
import type { CaseForecast } from "../state/case-forecast.ts";
import type { Estimate, RiskDifference } from "../../app/risk/answer.ts";
import { changeText, intervalText, isClear } from "../../app/risk/answer-words.ts";
import { QUICK_RUNS, useRiskChoices } from "../state/risk-choices.ts";
import { formatNumber } from "../format/number.ts";
import { useQuestion } from "../state/use-question.ts";
import type { Column } from "../widgets/data-table/column.ts";
import { DataTable } from "../widgets/data-table/data-table.tsx";
import { RunPart } from "../widgets/run-part.tsx";
import { ViewPart } from "../widgets/view-sheet.tsx";

const REST_MS = 600;

interface DifferenceRow {
  readonly id: string;
  readonly name: string;
  readonly whenPlanned: Estimate;
  readonly atAll: Estimate;
}

const rowsOf = (difference: RiskDifference, current: CaseForecast): readonly DifferenceRow[] => [
  { id: "all", name: "all sorties", whenPlanned: difference.allFlyWhenPlanned, atAll: difference.allFly },
  ...difference.sorties.map(({ key, fliesWhenPlanned, flies }) => ({
    id: key,
    name: current.plan.sorties.find((row) => row.key === key)?.name ?? key,
    whenPlanned: fliesWhenPlanned,
    atAll: flies,
  })),
];

const change = (id: "whenPlanned" | "atAll", heading: string): Column<DifferenceRow> => ({
  id,
  heading,
  unit: "points",
  isNumber: true,
  value: (row) => row[id].value,
  text: (row) => changeText(row[id]),
});

const columns: readonly Column<DifferenceRow>[] = [
  { id: "name", heading: "Sortie", value: ({ name }) => name },
  change("whenPlanned", "Flies when planned"),
  {
    id: "interval",
    heading: "95 % interval",
    unit: "points",
    isNumber: true,
    value: ({ whenPlanned }) => whenPlanned.value - 1.96 * whenPlanned.standardError,
    text: ({ whenPlanned }) => intervalText(whenPlanned),
  },
  change("atAll", "Flies at all"),
  {
    id: "clear",
    heading: "Told from nothing",
    isWide: true,
    value: ({ whenPlanned }) => (isClear(whenPlanned) ? 1 : 0),
    text: ({ whenPlanned }) => (isClear(whenPlanned) ? "yes, at 95 %" : "no"),
  },
];

export const RiskDifferencePart = ({ current, compare }: { current: CaseForecast; compare: CaseForecast }) => {
  const { seed } = useRiskChoices();
  const { value, isCurrent, run, failure, again } = useQuestion(
    "risk difference",
    "risk.compare",
    { planCaseId: compare.plan.planCase.id, compareId: current.plan.planCase.id, seed, runs: QUICK_RUNS },
    { title: "Risk of both plan cases", restMs: REST_MS },
  );
  return (
    <ViewPart>
      <RunPart question={{ run, failure, again }} words="Running both plan cases" againWords="Ask again" />
      {value !== null && (
        <div className={isCurrent ? "" : "risk-old"}>
          <DataTable
            caption={`Probability in ${current.plan.planCase.name} less that in ${compare.plan.planCase.name}, ± standard error: ${formatNumber(value.replications)} pairs of runs under the same draws, seed ${String(seed)}`}
            columns={columns}
            rows={rowsOf(value, current)}
            rowId={({ id }) => id}
            empty="The two cases have no sortie in common."
          />
        </div>
      )}
    </ViewPart>
  );
};
