/** The fitted level over the span of the readings with its 95 % interval, sampled for drawing. */
import { DAY_MS } from "../../ledger/quantity.ts";
import type { FittedLevel } from "./fit-result.ts";
import { columnsOf, type Solution } from "./least-squares.ts";
import { runModel } from "./level-model.ts";
import type { FitRequest, Observations } from "./observations.ts";

/** Even samples over the span; the instants of readings are left to their own points. */
const SAMPLES = 96;
/** Both sides of a transfer are drawn this far from it, days: a millisecond. */
const SIDE_DAYS = 1 / DAY_MS;

const sampleTimes = (observations: Observations): readonly number[] => {
  const end = observations.timeDays.at(-1) ?? 0;
  const even = Array.from({ length: SAMPLES + 1 }, (_, i) => (end * i) / SAMPLES);
  const sides = observations.transfers.flatMap(({ timeDays }) => [timeDays - SIDE_DAYS, timeDays + SIDE_DAYS]);
  return [...new Set([...even, ...sides])].filter((time) => time >= 0 && time <= end).sort((a, b) => a - b);
};

/** `spread`: half the interval in standard errors. */
export const fittedCurve = (
  observations: Observations,
  { parameters, basis }: Solution,
  fitted: FitRequest["fitted"],
  spread: number,
): readonly FittedLevel[] => {
  const times = sampleTimes(observations);
  const run = runModel(parameters, times, observations.transfers);
  const columns = columnsOf(run, fitted);
  const startAt = observations.readings[0]?.at ?? 0;
  const { toParameters } = basis;
  return times.map((time, i) => {
    let variance = 0;
    for (let column = 0; column < columns.length; column++) {
      const part = columns.reduce((sum, values, row) => sum + (values[i] as number) * toParameters.get(row, column), 0);
      variance += part * part;
    }
    const half = spread * Math.sqrt(variance);
    const levelKg = run.levels[i] as number;
    return { at: Math.round(startAt + time * DAY_MS), levelKg, lowKg: levelKg - half, highKg: levelKg + half };
  });
};
