/** What matters: the inputs ranked by the share of an outcome's variance that hangs on each, from points of their own. */
import { useCallback, useMemo, useState } from "react";
import { columnWords } from "../../app/study/column-words.ts";
import type { StudyAsked } from "../../app/study/question.ts";
import type { ColumnRanking } from "../../app/study/study-answer.ts";
import { formatNumber } from "../format/number.ts";
import { Plot } from "../plot/plot.tsx";
import { useQuestion } from "../state/use-question.ts";
import { Button } from "../widgets/button.tsx";
import { ChoiceField } from "../widgets/choice-field.tsx";
import type { Column } from "../widgets/data-table/column.ts";
import { DataTable } from "../widgets/data-table/data-table.tsx";
import { NumberField } from "../widgets/number-field.tsx";
import { RunPart } from "../widgets/run-part.tsx";
import { columnTitle } from "./point-columns.ts";
import { rankHeight, rankPicture } from "./rank-picture.ts";

interface RankPanelProps {
  readonly planCaseId: string;
  readonly asked: StudyAsked;
}

interface Asked {
  readonly of: string;
  readonly study: StudyAsked;
}

const notes = [
  "solid: share of the variance with all that the input does together with others; hatched: alone",
  "upright lines end 95 % intervals",
];

const share = (value: number): string => formatNumber(value, 3);

type RankRow = ColumnRanking["inputs"][number];

const columnsFor = (names: readonly string[]): readonly Column<RankRow>[] => [
  { id: "input", heading: "Input", value: ({ input }) => names[input] ?? "" },
  {
    id: "total",
    heading: "With others",
    isNumber: true,
    value: ({ total }) => total,
    text: ({ total }) => share(total),
  },
  {
    id: "totalInterval",
    heading: "95 %",
    value: ({ totalInterval }) => totalInterval.low,
    text: ({ totalInterval: { low, high } }) => `${share(low)} to ${share(high)}`,
  },
  { id: "first", heading: "Alone", isNumber: true, value: ({ first }) => first, text: ({ first }) => share(first) },
  {
    id: "firstInterval",
    heading: "95 %",
    value: ({ firstInterval }) => firstInterval.low,
    text: ({ firstInterval: { low, high } }) => `${share(low)} to ${share(high)}`,
  },
];

const USUAL_BASE = 256;

export const RankPanel = ({ planCaseId, asked }: RankPanelProps) => {
  const [base, setBase] = useState(USUAL_BASE);
  const [begun, setBegun] = useState<Asked | null>(null);
  const [wanted, setWanted] = useState<number | null>(null);
  const of = `${planCaseId} ${JSON.stringify(asked.inputs)} ${JSON.stringify(asked.ask)}`;
  const study = begun?.of === of ? begun.study : null;
  const { value, isCurrent, run, failure, again } = useQuestion(
    "study ranking",
    "study.ask",
    study === null ? null : { planCaseId, asked: study, from: 0 },
    { title: "What matters" },
  );
  const answer = isCurrent ? value : null;
  const rankings = answer?.rankings ?? [];
  const ranking =
    rankings.find(({ column }) => column === wanted) ?? rankings.find((one) => one.inputs.length > 0) ?? rankings[0];
  const names = useMemo(() => answer?.inputs.map(({ words }) => words) ?? [], [answer]);
  const compose = useCallback(
    (size: { readonly width: number; readonly height: number }) =>
      ranking === undefined ? { ...size, groups: [] } : rankPicture(ranking, names, size),
    [ranking, names],
  );
  const points = base * (asked.inputs.length + 2);
  return (
    <div className="study-panel">
      <p className="form-advice">
        The share of the variance of an outcome that hangs on each input, over the ranges and distributions asked above;
        lists count each of their values alike. It needs points of its own.
      </p>
      <div className="study-choices">
        <NumberField label="Rows" unit="" isWhole min={8} max={65_536} value={base} onCommit={setBase} />
        <Button
          unable={run === null ? null : "It is being looked for; stop it first."}
          onPress={() => setBegun({ of, study: { ...asked, design: { kind: "what matters", base } } })}
        >
          Find what matters ({formatNumber(points)} points)
        </Button>
      </div>
      <RunPart question={{ run, failure, again }} words="Looking for what matters" />
      {answer !== null && rankings.length === 0 && (
        <p>No outcome is a number at every point, or it was stopped before it was whole: nothing can be ranked.</p>
      )}
      {answer !== null && ranking !== undefined && (
        <>
          <div className="study-choices">
            <ChoiceField
              label="What matters to"
              value={String(ranking.column)}
              choices={rankings.map(({ column }) => ({ id: String(column), name: columnWords(answer, column) }))}
              onCommit={(id) => setWanted(Number(id))}
            />
          </div>
          {ranking.inputs.length === 0 ? (
            <p>
              {columnTitle(answer, ranking.column)} is the same at all points: none of the inputs matters to it here.
            </p>
          ) : (
            <>
              <Plot
                title={`What matters to ${columnWords(answer, ranking.column)}`}
                notes={notes}
                height={rankHeight(ranking.inputs.length)}
                label={null}
                compose={compose}
              />
              <DataTable
                caption={`Shares of the variance of ${columnWords(answer, ranking.column)}, from ${formatNumber(ranking.rows)} rows`}
                columns={columnsFor(names)}
                rows={ranking.inputs}
                rowId={({ input }) => String(input)}
                empty="Nothing is ranked."
              />
            </>
          )}
        </>
      )}
    </div>
  );
};
