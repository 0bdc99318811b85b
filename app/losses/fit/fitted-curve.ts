/** The fitted level over the span of the readings with its 95 % interval, sampled for drawing. */
import { DAY_MS } from "../../ground/quantity.ts";
import type { FittedLevel } from "./fit-result.ts";
import { placesOf, type Solution } from "./least-squares.ts";
import { runModel } from "./level-model.ts";
import type { FitRequest, Observations, Stretch } from "./observations.ts";

/** Even samples over the span; the instants of readings are left to their own points. */
const SAMPLES = 96;
/** Both sides of a transfer are drawn this far from it, days: a millisecond. */
const SIDE_DAYS = 1 / DAY_MS;

const sampleTimes = ({ timeDays, transfers }: Stretch, samples: number): readonly number[] => {
  const end = timeDays.at(-1) ?? 0;
  const even = Array.from({ length: samples + 1 }, (_, i) => (end * i) / samples);
  const sides = transfers.flatMap((transfer) => [transfer.timeDays - SIDE_DAYS, transfer.timeDays + SIDE_DAYS]);
  return [...new Set([...even, ...sides])].filter((time) => time >= 0 && time <= end).sort((a, b) => a - b);
};

/** `spread`: half the interval in standard errors. */
export const fittedCurve = (
  { stretches }: Observations,
  { parameters: { startsKg, kPerDay, cKgPerDay }, basis: { toParameters } }: Solution,
  fitted: FitRequest["fitted"],
  spread: number,
): readonly FittedLevel[] => {
  const places = placesOf(stretches.length, fitted);
  const samples = Math.max(8, Math.ceil(SAMPLES / stretches.length));
  return stretches.flatMap((stretch, own) => {
    const times = sampleTimes(stretch, samples);
    const run = runModel({ m0Kg: startsKg[own] as number, kPerDay, cKgPerDay }, times, stretch.transfers);
    const startAt = stretch.readings[0]?.at ?? 0;
    return times.map((time, i): FittedLevel => {
      let variance = 0;
      for (let column = 0; column < toParameters.columns; column++) {
        const by = (values: Float64Array, row: number | null): number =>
          row === null ? 0 : (values[i] as number) * toParameters.get(row, column);
        const part = by(run.byM0, own) + by(run.byK, places.k) + by(run.byC, places.c);
        variance += part * part;
      }
      const half = spread * Math.sqrt(variance);
      const levelKg = run.levels[i] as number;
      const at = Math.round(startAt + time * DAY_MS);
      return { at, levelKg, lowKg: levelKg - half, highKg: levelKg + half, stretch: own };
    });
  });
};
