/** The picture of a study: a map where two inputs meet on a grid and the supply was asked, else a curve along the first input. */
import { PlanningError } from "../../ground/failure.ts";
import { formatNumber } from "../../format/number.ts";
import { columnNamed, curveOf, outcomeColumns, turnsOf } from "../../study/slices.ts";
import { columnUnit, columnWords } from "../../study/column-words.ts";
import type { StudyAnswer } from "../../study/study-answer.ts";
import { type MapAxis, type StudyMap, studyMap, suppliedSlice } from "../../study/study-map.ts";
import { cellAt, rowsIn } from "../../study/study-table.ts";
import { capitalised } from "../../words/counted.ts";
import { chartBlock } from "../chart-block.ts";
import type { Chart, ReportMassUnit } from "../model.ts";
import { paperLook } from "../../picture/look.ts";
import { studyCurvePicture } from "../../picture/study-curve-picture.ts";
import { studyMapHeight } from "../../picture/study-map-axes.ts";
import { studyMapPicture } from "../../picture/study-map-picture.ts";
import { figureText } from "./study-figures.ts";
import { type ShownUnit, shownUnit } from "../../study/shown-figure.ts";

/** A map of more cells is no picture for paper. */
const MAX_MAP_CELLS = 2500;
/** As many values as a picture's words tell; of more, some that lie evenly between first and last. */
const MAX_TOLD = 24;

const MAP_WIDTH = 500;
const CURVE_SIZE = { width: 500, height: 185 };
const TURNS_NOTE = "Hatched: between these neighbouring values the plan begins or ceases to hold.";

const told = <T>(all: readonly T[]): readonly T[] =>
  all.length <= MAX_TOLD
    ? all
    : Array.from({ length: MAX_TOLD }, (_, n) => all[Math.round((n * (all.length - 1)) / (MAX_TOLD - 1))] as T);

const toldWords = (count: number): string =>
  count > MAX_TOLD ? ` Told for ${MAX_TOLD} of ${formatNumber(count)} values.` : "";

/** Axes in the report's unit of mass. */
const inUnit = (axis: MapAxis, massUnit: ReportMassUnit): MapAxis => {
  const { unit, per } = shownUnit(axis.unit, massUnit);
  return {
    words: axis.words,
    unit,
    values: axis.values.map((value) => value / per),
    today: axis.today === null ? null : axis.today / per,
  };
};

const asShown: (axis: MapAxis) => ShownUnit = ({ unit }) => ({ unit, per: 1 });

/** "0 to 1.5: 4; 2: 3": neighbours of the same count together. */
const runsOf = (map: StudyMap, row: number): string => {
  const { values } = map.across;
  const unit = asShown(map.across);
  const parts: { from: number; to: number; count: number }[] = [];
  values.forEach((value, index) => {
    const count = map.supplied[index]?.[row] ?? 0;
    const last = parts.at(-1);
    if (last?.count === count) last.to = value;
    else parts.push({ from: value, to: value, count });
  });
  return parts
    .map(({ from, to, count }) =>
      from === to
        ? `${figureText(from, unit)}: ${count}`
        : `${figureText(from, { unit: "", per: 1 })} to ${figureText(to, unit)}: ${count}`,
    )
    .join("; ");
};

const mapWords = (map: StudyMap): string => {
  const rows = map.up.values.map((value, row) => ({ value, row }));
  const sentences = told(rows).map(
    ({ value, row }) => `${capitalised(map.up.words)} ${figureText(value, asShown(map.up))}: ${runsOf(map, row)}.`,
  );
  return `Sorties supplied, of ${map.sorties}, along ${map.across.words}. ${sentences.join(" ")}${toldWords(rows.length)}`;
};

const mapOf = (answer: StudyAnswer, massUnit: ReportMassUnit): StudyMap | null => {
  const { columns, inputs, planCase } = answer;
  if (inputs.length !== 2 || answer.asked.design.kind !== "grid" || columnNamed(answer, "supplied") < 0) return null;
  const rows = Array.from({ length: rowsIn(answer.rows) }, (_, row) =>
    columns.map((_column, column) => cellAt(answer.rows, row, column)),
  );
  try {
    const today = inputs.map((input) => input.today);
    const map = studyMap({ name: answer.asked.name, planCase, columns, inputs: inputs.length, today, rows });
    const cells = map.across.values.length * map.up.values.length;
    if (cells > MAX_MAP_CELLS) return null;
    return { ...map, across: inUnit(map.across, massUnit), up: inUnit(map.up, massUnit) };
  } catch (error) {
    // A value that was listed twice makes no grid: the curve shows it.
    if (error instanceof PlanningError) return null;
    throw error;
  }
};

/** What the curve shows: the supply where it was asked, else the risk, else the flights, else the first figure there is. */
const outcomeOf = (answer: StudyAnswer): number | null => {
  const named = ["supplied", "all fly when planned", "flights"].map((name) => columnNamed(answer, name));
  return [...named.filter((column) => column >= 0), ...outcomeColumns(answer)][0] ?? null;
};

const curveFigure = (answer: StudyAnswer, id: string, of: string, massUnit: ReportMassUnit): Chart | null => {
  const column = outcomeOf(answer);
  const [input] = answer.inputs;
  if (column === null || input === undefined) return null;
  const [x, y] = [shownUnit(input.unit, massUnit), shownUnit(columnUnit(answer, column), massUnit)];
  const points = curveOf(answer, 0, column).filter(({ middle }) => Number.isFinite(middle));
  if (points.length === 0) return null;
  const turns = turnsOf(answer);
  const isOne = answer.inputs.length === 1;
  const isBanded = points.some(({ low, high }) => high > low);
  const words = columnWords(answer, column);
  const values = told(points).map(({ x: at, low, middle, high }) =>
    high > low
      ? `${figureText(at, x)}: ${figureText(middle, y)} (${figureText(low, y)} to ${figureText(high, y)})`
      : `${figureText(at, x)}: ${figureText(middle, y)}`,
  );
  const band = isOne
    ? isBanded
      ? " In brackets the reach of each point: its 95 % interval, its later tenth or what is proved."
      : ""
    : " The middle of the points at each value, in brackets where eight tenths of them lie, over all else that is varied.";
  return chartBlock({
    id,
    caption: `${capitalised(of)}: ${words} by ${input.words}`,
    description: `${capitalised(words)} along ${input.words}. ${values.join("; ")}.${toldWords(points.length)}${band}`,
    picture: studyCurvePicture(
      {
        across: input,
        up: { words, unit: columnUnit(answer, column) },
        points,
        today: input.today,
        turns,
        massUnit,
        notes: turns.length === 0 ? [] : [TURNS_NOTE],
      },
      CURVE_SIZE,
      paperLook,
    ),
  });
};

/** null: nothing of it is a figure. */
export const studyFigure = (answer: StudyAnswer, id: string, of: string, massUnit: ReportMassUnit): Chart | null => {
  const map = mapOf(answer, massUnit);
  if (map === null) return curveFigure(answer, id, of, massUnit);
  const notes = ["A sortie that is not loaded leaves its propellant to the later ones."];
  return chartBlock({
    id,
    caption: `${capitalised(of)}: sorties supplied by ${map.across.words} and ${map.up.words}`,
    description: mapWords(map),
    picture: studyMapPicture(
      {
        across: map.across,
        up: map.up,
        value: { words: `sorties supplied, of ${map.sorties}`, unit: "" },
        panels: [{ title: "", slice: suppliedSlice(map) }],
        today: [map.across.today, map.up.today],
        holds: "every sortie is supplied",
        massUnit,
        notes,
      },
      {
        width: MAP_WIDTH,
        height: studyMapHeight(1, MAP_WIDTH, paperLook) + notes.length * paperLook.note,
      },
      paperLook,
    ),
  });
};
