/** Names of flights on the timeline: each bar that has room for one has one, at any zoom, long names too, and none on another. */
import { describe, expect, it } from "vitest";
import type { Flight } from "../../../app/entity/flight.ts";
import type { Shape } from "../../../app/picture/shape.ts";
import { timeScale } from "../../../app/picture/time-scale.ts";
import { flightShapes } from "../../../renderer/timeline/layout/flight-shapes.ts";
import { tellingPart } from "../../../renderer/timeline/layout/flight-names.ts";
import { placeTimeline } from "../../../renderer/timeline/layout/place.ts";
import { timelineModel } from "../../../renderer/timeline/model/timeline-model.ts";
import { estimate } from "../golden/golden.ts";
import { day, smallCase, smallPlan } from "./small-plan.ts";

const [pattern] = smallPlan().flights;
if (pattern === undefined) throw new Error("no flight to begin with");

/** A flight from day to day, with its berth. */
const flown = (name: string, from: number, until: number, berthDays: number, more: Partial<Flight> = {}): Flight => ({
  ...pattern,
  id: name,
  key: name,
  name,
  departAt: day(from),
  arriveAt: day(until),
  berthDays,
  ...more,
});

const drawn = (flights: readonly Flight[], from: number, until: number, width = 1000) => {
  const model = timelineModel(smallCase({ flights: [...flights] }), null, null);
  if (model === null) throw new Error("nothing to draw");
  const place = placeTimeline(model, width, 480);
  const scale = timeScale(day(from), day(until), place.left, place.right);
  const shapes = flightShapes(model.flights, model.overdue, place, { scale, unit: "auto", measure: estimate }, null);
  return { shapes, scale, place };
};

const words = (shapes: readonly Shape[]) =>
  shapes.flatMap((shape) =>
    shape.kind === "text"
      ? [{ text: shape.text, x: shape.x, y: shape.y, endX: shape.x + estimate(shape.text, 12) }]
      : [],
  );

it("stands beside the block, whole, where every one of the lane has room", () => {
  const { shapes, scale } = drawn([flown("Wagon 1", 0, 10, 5), flown("Wagon 2", 60, 70, 5)], 0, 100);
  const found = words(shapes);
  expect(found.map(({ text }) => text)).toEqual(["Wagon 1", "Wagon 2"]);
  expect(found[0]?.x).toBeGreaterThan(scale.x(day(15)));
});

it("stands on the shaft, the line broken under it, where the next bar follows close behind", () => {
  // The second leaves a day and a half after the first leaves its port: no room beside, twenty days of shaft.
  const { shapes, scale } = drawn([flown("Wagon 1", 0, 20, 5), flown("Wagon 2", 26.5, 46.5, 5)], -2, 120);
  const [first] = words(shapes);
  if (first === undefined) throw new Error("no name");
  expect(first.text).toBe("1");
  expect(first.x).toBeGreaterThan(scale.x(day(0)));
  expect(first.endX).toBeLessThan(scale.x(day(20)));
  const ground = shapes.find((shape) => shape.kind === "rect" && shape.fill === "sheet");
  if (ground?.kind !== "rect") throw new Error("the line runs through the name");
  expect(ground.x).toBeLessThan(first.x);
  expect(ground.x + ground.width).toBeGreaterThan(first.endX);
});

it("stands on what is seen of the shaft, or in the block, where the rest is off the screen", () => {
  const flight = flown("Wagon 1", 0, 30, 30);
  const onShaft = drawn([flight], 8, 22);
  const inBlock = drawn([flight], 40, 50);
  for (const { shapes, place } of [onShaft, inBlock]) {
    const [name] = words(shapes);
    expect(name?.text).toBe("Wagon 1");
    expect(name?.x).toBeGreaterThan(place.left);
    expect(name?.endX).toBeLessThan(place.right);
  }
});

it("in the block of a firm flight it keeps clear of the stroke that says firm", () => {
  const { shapes, scale } = drawn([flown("Wagon 1", 0, 1, 30, { status: "firm" })], 5, 29);
  const [name] = words(shapes);
  const strokeX = scale.x(day(16));
  expect(name?.text).toBe("Wagon 1");
  expect(name !== undefined && (name.endX < strokeX - 2 || name.x > strokeX + 2)).toBe(true);
});

describe("the part that tells a flight apart", () => {
  const others = ["Return cargo by the far side 12", "Return cargo by the far side 13", "Spare 13"];
  it.each([
    ["Wagon 7", "Wagon", "7"],
    ["Return cargo by the far side 12", "Wagon", "12"],
    // Two end in 13: the number alone would name either.
    ["Return cargo by the far side 13", "Wagon", "Return cargo by the far side 13"],
    ["Wagonette", "Wagon", "Wagonette"],
  ])("of “%s” in the lane %s is “%s”", (name, title, part) => {
    expect(tellingPart(name, title, [...others, name])).toBe(part);
  });
});

it("a long name is told by its number where that alone has room, else cut, and never stands for another", () => {
  const long = (number: number): string => `Return cargo by the far side ${number}`;
  const flights = [12, 13, 14].map((number, index) => flown(long(number), index * 26, index * 26 + 20, 4.5));
  const shown = words(drawn(flights, -2, 160).shapes).map(({ text }) => text);
  expect(shown).toEqual(["12", "13", long(14)]);
  const alike = [flown("Return A 13", 0, 20, 4.5), flown("Spare B 13", 26, 46, 4.5)];
  expect(words(drawn(alike, -2, 260).shapes)[0]?.text).toMatch(/^Ret.*…$/);
});

it("no bar whose number has room is without a name, and no name touches another, at every zoom", () => {
  // Every fifth day's gap differs, so that rows are close and loose; 24 flights in one lane.
  const flights = Array.from({ length: 24 }, (_unused, index) => {
    const from = index * 9 + (index % 5) * 2;
    return flown(`Wagon ${index + 1}`, from, from + 4 + (index % 7), 1 + (index % 4));
  });
  for (const [from, until] of [
    [-10, 260],
    [0, 120],
    [30, 60],
    [31, 38],
    [100, 103],
  ] as const)
    for (const width of [700, 1000, 1600]) {
      const { shapes, scale } = drawn(flights, from, until, width);
      const found = words(shapes);
      for (const { name, departAt, arriveAt } of flights) {
        const number = name.slice("Wagon ".length);
        const seen = Math.min(scale.x(arriveAt), scale.right) - Math.max(scale.x(departAt), scale.left);
        if (seen < estimate(number, 12) + 12) continue;
        expect(
          found.some(({ text }) => text === number || text === name || text.startsWith(`${number},`)),
          `${name} from day ${from} to ${until} on ${width} pixels`,
        ).toBe(true);
      }
      const clashes = found.flatMap((a, index) =>
        found.slice(index + 1).filter((b) => a.y === b.y && a.x < b.endX && b.x < a.endX),
      );
      expect(clashes).toEqual([]);
    }
});
