/** What a study will cost: a few of its points, timed. */
import { availableParallelism } from "node:os";
import { asksResupply } from "../../app/study/asks.ts";
import { prepareStudy, type Study, type StudyBase } from "../../app/study/study.ts";

export interface Cost {
  readonly points: number;
  /** Of one point on one core, s. */
  readonly pointS: number;
  readonly measuredPoints: number;
  readonly cores: number;
  /** On all cores of this machine, s. */
  readonly totalS: number;
}

const MEASURE_MS = 400;
const MAX_POINTS = 64;

export const prepared = async (base: StudyBase): Promise<Study> =>
  prepareStudy(
    base,
    asksResupply(base.asked) ? await (await import("../service/linear-solver.ts")).loadLinearSolver() : null,
  );

/** Points from all over the study, as many as go in a moment, one at least. */
export const costOf = (study: Study): Cost => {
  const step = Math.max(1, Math.floor(study.points / MAX_POINTS));
  const began = performance.now();
  let measured = 0;
  for (let point = 0; point < study.points; point += step) {
    study.rowOf(study.valuesOf(point));
    measured += 1;
    if (performance.now() - began > MEASURE_MS) break;
  }
  const pointS = (performance.now() - began) / 1000 / measured;
  const cores = availableParallelism();
  return {
    points: study.points,
    pointS,
    measuredPoints: measured,
    cores,
    totalS: (pointS * study.points) / Math.min(cores, study.points),
  };
};

/** "3 h 20 min", "45 s". */
export const spanWords = (seconds: number): string => {
  if (seconds < 1) return "less than a second";
  if (seconds < 90) return `${Math.round(seconds)} s`;
  const minutes = Math.round(seconds / 60);
  if (minutes < 90) return `${minutes} min`;
  const hours = Math.round(minutes / 60);
  return hours < 72 ? `${hours} h` : `${Math.round(hours / 24)} days`;
};
