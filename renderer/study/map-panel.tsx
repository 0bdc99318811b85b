/** Two inputs as a map, a third as small maps beside each other, a fourth at one of its values. */
import { useCallback, useMemo, useState } from "react";
import { screenLook, type Size } from "../../app/picture/look.ts";
import { studyMapHeight, type StudyMapShown } from "../../app/picture/study-map-axes.ts";
import { columnUnit, columnWords } from "../../app/study/column-words.ts";
import { gridValues, holdsWords, mapOf } from "../../app/study/slices.ts";
import type { StudyAnswer } from "../../app/study/study-answer.ts";
import { Plot } from "../plot/plot.tsx";
import { useApp } from "../state/use-session.ts";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { capitalised } from "../../app/words/counted.ts";
import { valueText } from "../../app/study/shown-figure.ts";
import { mapRowAt, markedMap } from "./chosen-point.ts";
import { columnTitle } from "./point-columns.ts";

interface MapPanelProps {
  readonly answer: StudyAnswer;
  readonly column: number;
  readonly chosen: number | null;
  readonly onChoose: (row: number) => void;
}

/** Small maps drawn at most: first and last, and what lies evenly between. */
const MAX_PANELS = 6;

const spreadOut = (count: number): readonly number[] =>
  count <= MAX_PANELS
    ? Array.from({ length: count }, (_, n) => n)
    : Array.from({ length: MAX_PANELS }, (_, n) => Math.round((n * (count - 1)) / (MAX_PANELS - 1)));

export const MapPanel = ({ answer, column, chosen, onChoose }: MapPanelProps) => {
  const unit = useApp((state) => state.massUnit);
  const { inputs } = answer;
  const [wanted, setWanted] = useState<readonly [number, number]>([0, 1]);
  const [across, up] = wanted.every((n) => n < inputs.length) ? wanted : ([0, 1] as const);
  const [place, setPlace] = useState(0);
  const others = inputs.map((_, n) => n).filter((n) => n !== across && n !== up);
  const [third, fourth] = answer.asked.design.kind === "grid" ? others : [];
  const thirdValues = third === undefined ? null : gridValues(answer, third);
  const fourthValues = fourth === undefined ? null : gridValues(answer, fourth);
  const fourthPlace = Math.min(place, (fourthValues?.length ?? 1) - 1);
  const input = useMemo((): StudyMapShown => {
    const fixed = (n: number | null): ReadonlyMap<number, number> =>
      new Map([
        ...(third === undefined || n === null ? [] : [[third, n] as const]),
        ...(fourth === undefined ? [] : [[fourth, fourthPlace] as const]),
      ]);
    const drawn = thirdValues === null ? [null] : spreadOut(thirdValues.length);
    const words = (n: number) => ({ words: inputs[n]?.words ?? "", unit: inputs[n]?.unit ?? "" });
    return {
      across: words(across),
      up: words(up),
      value: { words: columnWords(answer, column), unit: columnUnit(answer, column) },
      panels: drawn.map((n) => ({
        title:
          n === null || third === undefined
            ? ""
            : `${capitalised(inputs[third]?.words ?? "")} ${valueText(thirdValues?.[n] ?? null, inputs[third]?.unit ?? "", unit)}`,
        slice: mapOf(answer, across, up, column, fixed(n)),
      })),
      today: [inputs[across]?.today ?? null, inputs[up]?.today ?? null],
      holds: holdsWords(answer),
      massUnit: unit,
      notes: [],
    };
    // The values follow from the answer.
    // eslint-disable-next-line react/exhaustive-deps -- thirdValues is made of answer and third
  }, [answer, across, up, third, fourth, fourthPlace, column, unit, inputs]);
  const compose = useCallback((size: Size) => markedMap(input, chosen, size, screenLook), [input, chosen]);
  const count = input.panels.length;
  const height = useCallback((width: number) => studyMapHeight(count, width, screenLook), [count]);
  const choices = inputs.map(({ words }, n) => ({ id: String(n), name: words }));
  const choose = (which: 0 | 1, n: number): void => {
    const other = which === 0 ? up : across;
    // The two change places rather than being the same.
    const freed = n === other ? (which === 0 ? across : up) : other;
    setWanted(which === 0 ? [n, freed] : [freed, n]);
  };
  const notes = useMemo(
    () => [
      ...(input.holds === null ? [] : [`bold line: up to here the plan holds: ${input.holds}`]),
      "fuller: a higher figure",
    ],
    [input.holds],
  );
  const held = input.panels.flatMap(({ slice }) => slice.cells.filter(({ holds }) => holds === true)).length;
  const all = input.panels.reduce((sum, { slice }) => sum + slice.cells.length, 0);
  return (
    <div className="study-panel">
      {inputs.length > 2 && (
        <div className="study-choices">
          <ChoiceField
            label="Across"
            value={String(across)}
            choices={choices}
            onCommit={(id) => choose(0, Number(id))}
          />
          <ChoiceField label="Up" value={String(up)} choices={choices} onCommit={(id) => choose(1, Number(id))} />
          {fourth !== undefined && fourthValues !== null && (
            <ChoiceField
              label={`At ${inputs[fourth]?.words ?? ""}`}
              value={String(fourthPlace)}
              choices={fourthValues.map((value, n) => ({
                id: String(n),
                name: valueText(value, inputs[fourth]?.unit ?? "", unit),
              }))}
              onCommit={(id) => setPlace(Number(id))}
            />
          )}
        </div>
      )}
      <Plot
        title={`${columnTitle(answer, column)} by ${input.across.words} and ${input.up.words}`}
        notes={notes}
        height={height}
        label={`Map of ${input.value.words}.${input.holds === null ? "" : ` The plan holds at ${String(held)} of ${String(all)} points shown: ${input.holds}.`}`}
        compose={compose}
        onPress={({ x, y }, size) => {
          const row = mapRowAt(input, size, screenLook, x, y);
          if (row !== null) onChoose(row);
        }}
      />
    </div>
  );
};
