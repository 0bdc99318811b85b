/** Where the runs of the risk lie: two nested bands and the median, behind the forecast of the plan as written. */
import type { MassScale } from "../../../app/picture/mass-scale.ts";
import { type Ink, propellantInk } from "../../../app/picture/ink.ts";
import type { Shape } from "../../../app/picture/shape.ts";
import type { TimeScale } from "../../../app/picture/time-scale.ts";
import type { LevelSource } from "../model/level-source.ts";
import type { ViewFrame } from "./view-frame.ts";

/** The part of the instants that is shown, with one more at each side, so that the bands reach the edges. */
const shownOf = (at: readonly number[], { fromAt, untilAt }: TimeScale): readonly [number, number] => {
  const first = at.findIndex((instant) => instant >= fromAt);
  const beyond = at.findIndex((instant) => instant > untilAt);
  return [Math.max(0, (first < 0 ? at.length : first) - 1), beyond < 0 ? at.length : Math.min(at.length, beyond + 1)];
};

/** Bands of the risk; none where there is no answer. Of a plan that has changed since: without the propellant's colour. */
export const levelBand = (source: LevelSource, axis: MassScale, { scale }: ViewFrame): readonly Shape[] => {
  if (source.band === null) return [];
  const { levels, isOld } = source.band;
  const [from, until] = shownOf(levels.at, scale);
  if (until - from < 2) return [];
  const ink: Ink = isOld ? "ink-soft" : propellantInk(source.propellant.position);
  const points = (masses: readonly number[]): number[][] =>
    masses.slice(from, until).map((massKg, place) => [scale.x(levels.at[from + place] ?? 0), axis.y(massKg)]);
  const between = (low: readonly number[], high: readonly number[], alpha: number): Shape => ({
    kind: "area",
    points: [...points(high), ...points(low).toReversed()].flat(),
    ink,
    texture: "flat",
    alpha,
  });
  return [
    between(levels.p5, levels.p95, 0.13),
    between(levels.p10, levels.p90, 0.15),
    { kind: "path", points: points(levels.p50).flat(), ink, width: 1.25, dash: [2, 3], alpha: 0.9 },
  ];
};
