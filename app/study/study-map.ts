/** The results of a study over two inputs, as a map needs them. */
import { PlanningError } from "../ground/failure.ts";
import type { Cell, Column } from "./columns.ts";
import type { MapSlice } from "./slices.ts";

export interface MapAxis {
  readonly words: string;
  readonly unit: string;
  /** Rising. */
  readonly values: readonly number[];
  /** Where the plan as it is stands; null: nowhere in one place. */
  readonly today: number | null;
}

export interface StudyMap {
  readonly name: string;
  readonly planCase: string;
  readonly across: MapAxis;
  readonly up: MapAxis;
  readonly sorties: number;
  /** [across][up]. */
  readonly supplied: readonly (readonly number[])[];
}

export interface StudyResult {
  readonly name: string;
  readonly planCase: string;
  readonly columns: readonly Column[];
  readonly inputs: number;
  readonly today: readonly (number | null)[];
  /** Without the point's number. */
  readonly rows: readonly (readonly Cell[])[];
}

const refuse = (message: string): never => {
  throw new PlanningError("refused", message);
};

/** The map of a grid over two inputs of which the supply was asked. Throws "refused" for any other study. */
export const studyMap = ({ name, planCase, columns, inputs, today, rows }: StudyResult): StudyMap => {
  if (inputs !== 2) refuse(`A map has two inputs; this study has ${inputs}.`);
  const index = columns.findIndex((column) => column.name === "supplied");
  const count = columns.findIndex((column) => column.name === "sorties");
  if (index < 0) refuse('A map shows how the sorties are supplied: ask {"kind": "supply"} in the study.');
  const axis = (n: number): MapAxis => ({
    words: columns[n]?.name ?? "",
    unit: columns[n]?.unit ?? "",
    values: [...new Set(rows.map((row) => Number(row[n])))].toSorted((a, b) => a - b),
    today: today[n] ?? null,
  });
  const [across, up] = [axis(0), axis(1)];
  if (across.values.length * up.values.length !== rows.length)
    refuse("A map is drawn from a grid, in which every value meets every other; this study has another design.");
  if (across.values.length < 2 || up.values.length < 2)
    refuse("A map needs two values at least of each of its two inputs.");
  const at = new Map(rows.map((row) => [`${String(row[0])} ${String(row[1])}`, Number(row[index])]));
  return {
    name,
    planCase,
    across,
    up,
    sorties: Number(rows[0]?.[count] ?? 0),
    supplied: across.values.map((a) => up.values.map((b) => at.get(`${a} ${b}`) ?? 0)),
  };
};

/** Its points, for the picture: it holds where every sortie is supplied. */
export const suppliedSlice = ({ across, up, sorties, supplied }: StudyMap): MapSlice => ({
  xs: across.values,
  ys: up.values,
  cells: across.values.flatMap((x, i) =>
    up.values.map((y, j) => {
      const value = supplied[i]?.[j] ?? 0;
      return { row: i * up.values.length + j, x, y, value, holds: value === sorties };
    }),
  ),
});
