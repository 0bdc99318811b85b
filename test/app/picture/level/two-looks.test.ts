/** One level on screen and on paper: the bands and the curves of both stand where the numbers are. */
import { describe, expect, test } from "vitest";
import { levelOf } from "../../../../app/picture/curve.ts";
import { levelAxis } from "../../../../app/picture/level/level-ground.ts";
import { levelPicture } from "../../../../app/picture/level/level-picture.ts";
import type { LevelSource } from "../../../../app/picture/level/level-source.ts";
import type { AreaShape, Box, Group, PathShape, Shape } from "../../../../app/picture/shape.ts";
import { timeScale } from "../../../../app/picture/time-scale.ts";
import type { Band } from "../../../../app/risk/answer.ts";
import { liveGroups, stillGroups } from "../../../../renderer/timeline/layout/compose.ts";
import { placeTimeline } from "../../../../renderer/timeline/layout/place.ts";
import { timelineModel } from "../../../../renderer/timeline/model/timeline-model.ts";
import { estimate } from "../../../renderer/golden/golden.ts";
import { smallCase } from "../../../renderer/timeline/small-plan.ts";

const DAY = 86_400_000;
const current = smallCase();
const [depot] = current.plan.depots;
const [propellant] = current.plan.propellants.toSorted((a, b) => a.position - b.position);
const fromAt = current.plan.asOfAt - 20 * DAY;
const untilAt = current.plan.asOfAt + 100 * DAY;
const at = Array.from({ length: 11 }, (_, place) => current.plan.asOfAt + place * 10 * DAY);
const levels: Band = {
  depotId: depot!.id,
  propellantId: propellant!.id,
  at,
  p5: at.map((_, n) => 100 + n),
  p10: at.map((_, n) => 200 + 2 * n),
  p50: at.map((_, n) => 300 + 3 * n),
  p90: at.map((_, n) => 400 + 5 * n),
  p95: at.map((_, n) => 500 + 7 * n),
};

/** The shapes inside the plot, with what leads from them back to instants and masses. */
interface Seen {
  readonly shapes: readonly Shape[];
  readonly back: (x: number, y: number) => readonly [at: number, kg: number];
}

const seenIn = (groups: readonly Group[], box: Box, source: LevelSource): Seen => {
  const axis = levelAxis(source, box, "kg");
  const scale = timeScale(fromAt, untilAt, box.x, box.x + box.width);
  const bottom = box.y + box.height;
  return {
    shapes: groups
      .filter(({ clip }) => clip?.y === box.y && clip.height === box.height)
      .flatMap(({ shapes }) => shapes),
    back: (x, y) => [scale.at(x), ((bottom - y) / box.height) * axis.topKg],
  };
};

const model = timelineModel(current, null, null, { bands: [levels], isOld: false, note: "bands" })!;
const source = model.levels.find((level) => level.band !== null)!;

const onScreen = (): Seen => {
  const place = placeTimeline(model, 1000, 700);
  const frame = { scale: timeScale(fromAt, untilAt, place.left, place.right), unit: "kg" as const, measure: estimate };
  const chart = place.charts[model.levels.indexOf(source)]!;
  const groups = [...stillGroups(model, place, frame, null), ...liveGroups(model, place, frame, null)];
  return seenIn(groups, chart.plot, source);
};

const onPaper = (): Seen => {
  const picture = levelPicture({
    width: 500,
    stripHeight: 118,
    fromAt,
    untilAt,
    asOfAt: current.plan.asOfAt,
    massUnit: "kg",
    strips: [{ source, title: "", name: "" }],
    sorties: [],
  });
  return seenIn(picture.groups, picture.groups.find(({ clip }) => clip !== null)!.clip!, source);
};

const cornersOf = ({ shapes, back }: Seen, of: (shape: Shape) => shape is AreaShape | PathShape) =>
  shapes.filter(of).map(({ points }) => {
    const all = Array.from(points);
    return all.flatMap((x, n) => (n % 2 === 0 ? [back(x, all[n + 1]!)] : []));
  });

const isBand = (shape: Shape): shape is AreaShape =>
  shape.kind === "area" && shape.texture === "flat" && (shape.alpha === 0.13 || shape.alpha === 0.15);

describe.each([
  ["on screen", onScreen],
  ["on paper", onPaper],
])("%s", (_, seen) => {
  test("the two bands have the instants and masses of the answer as their corners", () => {
    const [outer, inner, ...more] = cornersOf(seen(), isBand);
    expect(more).toEqual([]);
    for (const [corners, low, high] of [
      [outer, levels.p5, levels.p95],
      [inner, levels.p10, levels.p90],
    ] as const) {
      const wanted = [
        ...at.map((instant, n) => [instant, high[n]!] as const),
        ...at.map((instant, n) => [instant, low[n]!] as const).toReversed(),
      ];
      expect(corners).toHaveLength(wanted.length);
      wanted.forEach(([instant, kg], n) => {
        expect(Math.abs(corners![n]![0] - instant)).toBeLessThan(1000);
        expect(corners![n]![1]).toBeCloseTo(kg, 6);
      });
    }
  });

  test("the forecast runs through the level of the plan at every point between events", () => {
    const asOf = current.plan.asOfAt;
    const isForecast = (shape: Shape): shape is PathShape =>
      shape.kind === "path" && shape.points.length > 4 && shape.alpha === undefined;
    const lines = cornersOf(seen(), isForecast).filter((corners) => Math.abs(corners[0]![0] - asOf) < 1000);
    expect(lines).toHaveLength(1);
    const events = new Set(source.forecast.flatMap(({ startAt, endAt }) => [startAt, endAt]));
    const between = lines[0]!.filter(([instant]) => ![...events].some((event) => Math.abs(event - instant) < 60_000));
    for (const [instant, kg] of between) expect(kg).toBeCloseTo(levelOf(source.forecast, instant)!, 3);
    // At an event it is one of both: as it was before, and as it is after.
    for (const event of events) {
      if (event <= asOf || event >= untilAt) continue;
      const after = levelOf(source.forecast, event)!;
      const there = lines[0]!.filter(([instant]) => Math.abs(event - instant) < 60_000).map(([, kg]) => kg);
      expect(Math.min(...there.map((kg) => Math.abs(kg - after)))).toBeLessThan(1e-3);
    }
  });
});
