/**
 * What is drawn anew in a frame of a drag: nothing left of it may differ from the frame before. Checked on the pictures
 * taken apart into single strokes, as sets, whatever order and whichever shape they come from.
 */
import { expect, it, test } from "vitest";
import { changedFrom } from "../../../renderer/charts/damage.ts";
import type { Group, Shape } from "../../../app/picture/shape.ts";
import { timeScale } from "../../../app/picture/time-scale.ts";
import { movedModel } from "../../../renderer/timeline/drag/moved-model.ts";
import { type Grab, moved } from "../../../renderer/timeline/drag/move.ts";
import { liveGroups } from "../../../renderer/timeline/layout/compose.ts";
import { heldGroups } from "../../../renderer/timeline/layout/cursor.ts";
import { headGroups } from "../../../renderer/timeline/layout/head.ts";
import { placeTimeline } from "../../../renderer/timeline/layout/place.ts";
import { timelineModel } from "../../../renderer/timeline/model/timeline-model.ts";
import { estimate } from "../golden/golden.ts";
import { day, smallCase } from "./small-plan.ts";

const widthOf = (shape: Shape): number => (shape.kind === "text" ? estimate(shape.text, shape.size, shape.isBold) : 0);

const leftOf = (shape: Shape): number => {
  if (shape.kind === "text")
    return shape.x - { start: 0, middle: widthOf(shape) / 2, end: widthOf(shape) }[shape.anchor];
  if (shape.kind === "dot" || shape.kind === "status") return shape.x - shape.radius;
  return "x" in shape ? shape.x : 0;
};

/** Every stroke that begins left of an upright line, as text. */
const strokesLeftOf = (groups: readonly Group[], fromX: number): ReadonlySet<string> => {
  const strokes = new Set<string>();
  for (const { clip, shapes } of groups)
    for (const shape of shapes) {
      if (!("points" in shape)) {
        if (leftOf(shape) < fromX) strokes.add(JSON.stringify([clip, shape]));
        continue;
      }
      const { points, ...look } = shape;
      for (let i = 0; i + 3 < points.length; i += 2) {
        const [xa = 0, ya = 0, xb = 0, yb = 0] = [points[i], points[i + 1], points[i + 2], points[i + 3]];
        // The lower edge of an area leads to its end wherever that is.
        if (shape.kind === "area" && ya === yb && xa > xb) continue;
        if (Math.min(xa, xb) < fromX) strokes.add(JSON.stringify([clip, look, xa, ya, xb, yb]));
      }
    }
  return strokes;
};

const model = timelineModel(smallCase(), null, null)!;
const place = placeTimeline(model, 1000, 480);
const frame = {
  scale: timeScale(day(-30), day(200), place.left, place.right),
  unit: "auto" as const,
  measure: estimate,
};
const movedBy = (grab: Grab, days: number) => {
  const change = moved(model.plan, grab, days * 86_400_000);
  return change === null ? model : movedModel(model, change);
};
const pictureOf = (grab: Grab, days: number): readonly Group[] => {
  const shown = movedBy(grab, days);
  return [...liveGroups(shown, place, frame, grab), ...heldGroups(shown, place, frame, grab)];
};
const headOf = (grab: Grab, days: number): readonly Group[] => headGroups(movedBy(grab, days), frame, 1000);

const grabs: readonly Grab[] = [
  ...model.flights.map(({ id }): Grab => ({ kind: "flight", id, grip: "body" })),
  ...model.sorties.map(({ id }): Grab => ({ kind: "sortie", id, grip: "body" })),
];

it.each(grabs)("holding $kind $id: left of what is drawn anew, nothing differs", (grab) => {
  const steps = [0, 1, 2, 5, 4, 20, -3, 45, 44, 90, 0];
  for (const [index, days] of steps.slice(1).entries())
    for (const picture of [pictureOf, headOf]) {
      const [before, after] = [picture(grab, steps[index]!), picture(grab, days)];
      const fromX = changedFrom(before, after, estimate);
      if (fromX === -Infinity) continue;
      expect(strokesLeftOf(after, fromX)).toEqual(strokesLeftOf(before, fromX));
    }
});

test("a late flight leaves most of the picture as it is", () => {
  const late = model.flights.at(-1)!;
  const grab: Grab = { kind: "flight", id: late.id, grip: "body" };
  const fromX = changedFrom(pictureOf(grab, 3), pictureOf(grab, 4), estimate);
  expect(fromX).toBeGreaterThan(place.left);
  expect(fromX).toBeLessThanOrEqual(frame.scale.x(late.departAt));
});

test("the same picture again has nothing to draw; another kind of picture is drawn whole", () => {
  const grab = grabs[0]!;
  expect(changedFrom(pictureOf(grab, 3), pictureOf(grab, 3), estimate)).toBe(Infinity);
  expect(changedFrom(pictureOf(grab, 3), [], estimate)).toBe(-Infinity);
});

test("a shape that came, went or changed its colour is drawn anew from its left edge", () => {
  const dot = (x: number): Shape => ({ kind: "dot", x, y: 10, radius: 3, fill: "ink", edge: "ink" });
  const of = (...shapes: readonly Shape[]): readonly Group[] => [{ clip: null, shapes }];
  const from = (before: readonly Group[], after: readonly Group[]): number => changedFrom(before, after, estimate);
  // Eight pixels are the reach of lines and halos.
  expect(from(of(dot(50), dot(90)), of(dot(50), dot(70), dot(90)))).toBe(70 - 3 - 8);
  expect(from(of(dot(50), dot(70), dot(90)), of(dot(50), dot(90)))).toBe(70 - 3 - 8);
  expect(from(of(dot(50)), of({ ...dot(50), fill: "sheet" } as Shape))).toBe(50 - 3 - 8);
  const word = (text: string): Shape => ({ kind: "text", x: 100, y: 10, text, ink: "ink", size: 12, anchor: "end" });
  expect(from(of(word("ab")), of(word("abcd")))).toBeCloseTo(100 - estimate("abcd", 12) - 8, 9);
});
