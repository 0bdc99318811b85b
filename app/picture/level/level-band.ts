/** Where the runs of the risk lie: two nested bands and the median, behind the forecast of the plan as written. */
import { type Ink, propellantInk } from "../ink.ts";
import type { MassScale } from "../mass-scale.ts";
import { flatArea, type Shape } from "../shape.ts";
import type { TimeScale } from "../time-scale.ts";
import type { LevelLook } from "./level-look.ts";
import type { LevelSource } from "./level-source.ts";

/** The part of the instants that is shown, with one more at each side, so that the bands reach the edges. */
const shownOf = (at: readonly number[], { fromAt, untilAt }: TimeScale): readonly [number, number] => {
  const first = at.findIndex((instant) => instant >= fromAt);
  const beyond = at.findIndex((instant) => instant > untilAt);
  return [Math.max(0, (first < 0 ? at.length : first) - 1), beyond < 0 ? at.length : Math.min(at.length, beyond + 1)];
};

/** Bands of the risk; none where there is no answer. Of a plan that has changed since: without the propellant's colour. */
export const levelBand = (
  source: LevelSource,
  axis: MassScale,
  scale: TimeScale,
  look: LevelLook,
): readonly Shape[] => {
  if (source.band === null) return [];
  const { levels, isOld } = source.band;
  const [from, until] = shownOf(levels.at, scale);
  if (until - from < 2) return [];
  const ink: Ink = isOld ? "ink-soft" : propellantInk(source.propellant.position);
  const points = (masses: readonly number[]): number[][] =>
    masses.slice(from, until).map((massKg, place) => [scale.x(levels.at[from + place] ?? 0), axis.y(massKg)]);
  const between = (low: readonly number[], high: readonly number[], alpha: number): Shape =>
    flatArea([...points(high), ...points(low).toReversed()].flat(), ink, alpha);
  return [
    between(levels.p5, levels.p95, 0.13),
    between(levels.p10, levels.p90, 0.15),
    ...(look.median === 0
      ? []
      : [
          {
            kind: "path",
            points: points(levels.p50).flat(),
            ink,
            width: look.median,
            dash: [2, 3],
            alpha: 0.9,
          } as const,
        ]),
  ];
};
