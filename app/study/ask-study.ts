/** A study on screen: its points handed out to the threads, its rows added up in their order, told while they come. */
import type { SolveLinear } from "../resupply/linear.ts";
import { PlanningError } from "../ground/failure.ts";
import { type Leading, type Working, stopped } from "../work/working.ts";
import type { Cell } from "./columns.ts";
import { sobolIndices } from "./indices.ts";
import { type PointRange, studyOf } from "./row-lines.ts";
import { prepareStudy, type StudyBase } from "./study.ts";
import type { ColumnRanking, StudyAnswer } from "./study-answer.ts";
import { cellAt, joinTables, packRows, rowsIn, type StudyTable } from "./study-table.ts";

/** A study with the identity of what its rows hang on. */
export interface StudyOnScreen extends StudyBase {
  readonly inputHash: string;
}

/** A table of more cells is no longer looked at in a window. */
export const MAX_CELLS = 8_000_000;

export interface FromPoint {
  /** Points before this are there already: a study that was stopped goes on. */
  readonly from: number;
}

/** A run of points, or the ranking of one column over all of them. */
export type StudyPart =
  | ({ readonly kind: "points" } & PointRange)
  | { readonly kind: "rank"; readonly column: number; readonly inputs: number; readonly values: Float64Array };
export type StudyDone =
  | {
      readonly kind: "points";
      readonly rows: StudyTable;
      /** What it took, ms: by this the next parts are cut. */
      readonly ms: number;
    }
  | { readonly kind: "rank"; readonly ranking: ColumnRanking };

/** `now`: a clock, ms. Throws "cancelled" where it is stopped before it is whole. */
export const studyPart = (
  base: StudyBase,
  part: StudyPart,
  solve: SolveLinear | null,
  now: () => number,
  working: Working,
): StudyDone => {
  if (part.kind === "rank")
    return { kind: "rank", ranking: { column: part.column, ...sobolIndices(part.values, part.inputs) } };
  const began = now();
  const study = studyOf(base, solve);
  const rows: (readonly Cell[])[] = [];
  for (let point = part.from; point < part.until; point += 1) {
    if (working.shouldStop()) throw stopped();
    rows.push(study.rowOf(study.valuesOf(point), working));
  }
  return { kind: "points", rows: packRows(rows, study.columns.length), ms: now() - began };
};

/** Points of the first parts, and what a part takes about, ms. */
const FIRST_POINTS = 2;
const MAX_PART_POINTS = 1024;
const PART_MS = 120;
/** What is known so far is told when it has grown by so much: ten thousand rows are not sent a hundred times. */
const GROWTH = 1.35;

/** Columns that are a number at every point. */
const numberColumns = (rows: StudyTable, inputs: number): readonly number[] => {
  const count = rowsIn(rows);
  return Array.from({ length: rows.width - inputs }, (_, n) => n + inputs).filter((column) => {
    for (let row = 0; row < count; row += 1) if (typeof cellAt(rows, row, column) !== "number") return false;
    return count > 0;
  });
};

const columnOf = ({ cells, width }: StudyTable, column: number): Float64Array =>
  Float64Array.from({ length: cells.length / width }, (_, row) => cells[row * width + column] ?? Number.NaN);

/**
 * Stopped, it answers with an unbroken row of points, so that it can be gone on with. Throws in words what cannot be
 * asked, and where there would be more than a window shows.
 */
export const leadStudy = async (
  base: StudyOnScreen,
  { from }: FromPoint,
  leading: Leading<StudyAnswer, StudyPart, StudyDone>,
): Promise<StudyAnswer> => {
  // For its columns and its number of points alone; rows are made in the threads.
  const study = prepareStudy(base);
  const width = study.columns.length;
  if (study.points * width > MAX_CELLS)
    throw new PlanningError(
      "refused",
      `This study has ${study.points.toLocaleString("en")} points of ${width} figures each: more than a window shows. Take fewer values, or run it in a folder by the command line: study plan.`,
      "design",
    );
  if (from >= study.points && from > 0)
    throw new PlanningError("invalid input", `The study has ${study.points} points: it cannot go on after.`, "from");
  const tables: StudyTable[] = [];
  let until = from;
  let toldAt = 0;
  const answer = (rankings: readonly ColumnRanking[] = []): StudyAnswer => ({
    planCaseId: base.plan.planCase.id,
    planCase: base.plan.planCase.name,
    inputHash: base.inputHash,
    asked: base.asked,
    inputs: study.inputs.map(({ words, unit, today }) => ({ words, unit, today })),
    columns: study.columns,
    points: study.points,
    from,
    rows: joinTables(tables, width),
    rankings,
  });
  const tell = (done: number, isWithRows: boolean): void =>
    leading.tell(() => ({
      share: done / study.points,
      words: "Running the study",
      done: { count: done, unit: "points" },
      ...(isWithRows ? { partial: answer() } : {}),
    }));

  let size = FIRST_POINTS;
  while (until < study.points) {
    const parts: StudyPart[] = [];
    for (let at = until; at < study.points && parts.length < leading.threads * 2; at += size)
      parts.push({ kind: "points", from: at, until: Math.min(study.points, at + size) });
    const begun = until;
    let done = until;
    // eslint-disable-next-line no-await-in-loop -- how the next round is cut hangs on this one
    const round = await leading.runParts(parts, (part) => {
      if (part.kind === "points") done += rowsIn(part.rows);
      tell(done, false);
    });
    let ms = 0;
    for (const part of round) {
      if (part === null) return answer();
      if (part.kind !== "points") continue;
      tables.push(part.rows);
      until += rowsIn(part.rows);
      ms += part.ms;
    }
    const pointMs = Math.max(1e-3, ms / Math.max(1, until - begun));
    size = Math.max(1, Math.min(MAX_PART_POINTS, Math.round(PART_MS / pointMs), size * 4));
    const isGrown = until - from >= toldAt * GROWTH + 1;
    if (isGrown) toldAt = until - from;
    tell(until, isGrown);
    if (until < study.points && leading.shouldStop()) return answer();
  }
  if (from > 0 || base.asked.design.kind !== "what matters") return answer();
  const { rows } = answer();
  const inputs = study.inputs.length;
  const ranked = await leading.runParts(
    numberColumns(rows, inputs).map((column) => ({ kind: "rank", column, inputs, values: columnOf(rows, column) })),
  );
  return answer(ranked.flatMap((part) => (part?.kind === "rank" ? [part.ranking] : [])));
};
