/** Points as lines of text, the same bytes wherever they are computed: a JSON list a point, its number first. */
import type { SolveLinear } from "../resupply/linear.ts";
import type { Working } from "../work/working.ts";
import { stopped } from "../work/working.ts";
import type { Cell } from "./columns.ts";
import { prepareStudy, type Study, type StudyBase } from "./study.ts";

export interface PointRange {
  readonly from: number;
  readonly until: number;
}

/** A thread is asked about the same study over and over. */
const studies = new WeakMap<StudyBase, Study>();

/** The study of a base, made ready once a thread. */
export const studyOf = (base: StudyBase, solve: SolveLinear | null): Study => {
  const known = studies.get(base);
  if (known !== undefined) return known;
  const made = prepareStudy(base, solve);
  studies.set(base, made);
  return made;
};

/** Noughts have one sign, so that equal numbers are equal bytes; JSON itself writes −0 as 0, and what is no number as null. */
export const lineOf = (point: number, cells: readonly Cell[]): string => `${JSON.stringify([point, ...cells])}\n`;

/** Points [from, until). Throws "cancelled" where it is stopped before all are there. */
export const rowLines = (
  base: StudyBase,
  { from, until }: PointRange,
  solve: SolveLinear | null,
  working: Working,
): string => {
  const study = studyOf(base, solve);
  const lines: string[] = [];
  for (let point = from; point < until; point += 1) {
    if (working.shouldStop()) throw stopped();
    lines.push(lineOf(point, study.rowOf(study.valuesOf(point), working)));
  }
  return lines.join("");
};
