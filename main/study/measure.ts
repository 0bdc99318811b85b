/** What a study will cost: a few of its points, timed. */
import { availableParallelism } from "node:os";
import { asksResupply } from "../../app/study/asks.ts";
import type { StudyCost } from "../../app/study/study-cost.ts";
import { prepareStudy, type Study, type StudyBase } from "../../app/study/study.ts";

const MEASURE_MS = 400;
const MAX_POINTS = 64;

export const prepared = async (base: StudyBase): Promise<Study> =>
  prepareStudy(
    base,
    asksResupply(base.asked) ? await (await import("../service/linear-solver.ts")).loadLinearSolver() : null,
  );

/** Points from all over the study, as many as go in a moment, one at least. */
export const costOf = (study: Study): StudyCost => {
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
