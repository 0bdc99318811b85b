/** An outcome along one of the inputs. */
import { useCallback, useMemo, useState } from "react";
import { screenLook, type Size } from "../../app/picture/look.ts";
import type { StudyCurve } from "../../app/picture/study-curve-picture.ts";
import { columnUnit, columnWords } from "../../app/study/column-words.ts";
import { curveOf, HOLDS_AT, turnsOf } from "../../app/study/slices.ts";
import type { StudyAnswer } from "../../app/study/study-answer.ts";
import { cellAt, rowsIn } from "../../app/study/study-table.ts";
import { capitalised } from "../../app/words/counted.ts";
import { Plot } from "../plot/plot.tsx";
import { useApp } from "../state/use-session.ts";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { curveValueAt, markedCurve } from "./chosen-point.ts";
import { columnTitle } from "./point-columns.ts";

interface CurvePanelProps {
  readonly answer: StudyAnswer;
  readonly column: number;
  readonly chosen: number | null;
  readonly onChoose: (row: number) => void;
}

const nearest = (answer: StudyAnswer, input: number, value: number): number => {
  let best = 0;
  let least = Infinity;
  for (let row = 0; row < rowsIn(answer.rows); row += 1) {
    const away = Math.abs(Number(cellAt(answer.rows, row, input)) - value);
    if (away >= least) continue;
    least = away;
    best = row;
  }
  return best;
};

const HEIGHT = 300;

const oneNotes = ["hatched: between these neighbouring values the plan begins or ceases to hold"];
const bandNotes = [
  "line: the middle of the points there; band: the eight tenths in the middle, over all else that is varied",
];

export const CurvePanel = ({ answer, column, chosen, onChoose }: CurvePanelProps) => {
  const unit = useApp((state) => state.massUnit);
  const [wanted, setWanted] = useState(0);
  const input = wanted < answer.inputs.length ? wanted : 0;
  const across = answer.inputs[input];
  const isOne = answer.inputs.length === 1;
  const curve = useMemo(
    (): StudyCurve => ({
      across: across ?? { words: "", unit: "" },
      up: { words: columnWords(answer, column), unit: columnUnit(answer, column) },
      points: curveOf(answer, input, column),
      today: across?.today ?? null,
      turns: turnsOf(answer),
      massUnit: unit,
      notes: [],
    }),
    [answer, across, input, column, unit],
  );
  const chosenValue = chosen === null ? null : Number(cellAt(answer.rows, chosen, input));
  const compose = useCallback((size: Size) => markedCurve(curve, chosenValue, size, screenLook), [curve, chosenValue]);
  const choices = answer.inputs.map(({ words }, n) => ({ id: String(n), name: words }));
  const words = isOne
    ? curve.turns.length === 0
      ? "The plan holds at all of these values, or at none."
      : "Hatched: between these neighbouring values the plan begins or ceases to hold."
    : "Line: the middle of the points at each value. Band: the eight tenths in the middle, over all else that is varied.";
  return (
    <div className="study-panel">
      {!isOne && (
        <div className="study-choices">
          <ChoiceField label="Along" value={String(input)} choices={choices} onCommit={(id) => setWanted(Number(id))} />
        </div>
      )}
      <Plot
        title={`${columnTitle(answer, column)} by ${across?.words ?? ""}`}
        notes={isOne ? oneNotes : bandNotes}
        height={HEIGHT}
        label={`${capitalised(curve.up.words)} along ${curve.across.words}. ${words}`}
        compose={compose}
        onPress={({ x }, size) => onChoose(nearest(answer, input, curveValueAt(curve, size, screenLook, x)))}
      />
      <p className="form-advice">
        {words}
        {answer.columns[column]?.name === "all fly when planned"
          ? ` Held is what is reached in ${String(HOLDS_AT * 100)} % of the runs.`
          : ""}
      </p>
    </div>
  );
};
