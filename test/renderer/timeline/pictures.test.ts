/** The timeline as pictures: whole, zoomed in, compared, held in the hand; and what must be true of any of them. */
import { describe, expect, it } from "vitest";
import type { Group, Shape, TextShape } from "../../../app/picture/shape.ts";
import { toSvg } from "../../../app/picture/svg.ts";
import { timeScale } from "../../../app/picture/time-scale.ts";
import { movedModel } from "../../../renderer/timeline/drag/moved-model.ts";
import { moved } from "../../../renderer/timeline/drag/move.ts";
import { ghostGroups, liveGroups, stillGroups } from "../../../renderer/timeline/layout/compose.ts";
import { cursorGroups, heldGroups } from "../../../renderer/timeline/layout/cursor.ts";
import { HEAD_HEIGHT, headGroups } from "../../../renderer/timeline/layout/head.ts";
import { placeTimeline } from "../../../renderer/timeline/layout/place.ts";
import { timelineModel } from "../../../renderer/timeline/model/timeline-model.ts";
import { estimate, expectGolden, goldenTheme } from "../golden/golden.ts";
import { day, smallCase, smallPlan } from "./small-plan.ts";

const current = smallCase();
const other = smallCase({
  planCase: { ...smallPlan().planCase, name: "Without Wagon 2" },
  flights: smallPlan().flights.filter((flight) => flight.id !== "flight-2"),
});

const drawn = (width: number, height: number, fromAt: number, untilAt: number, compared = false) => {
  const model = timelineModel(current, compared ? other : null, null)!;
  const place = placeTimeline(model, width, height);
  const frame = {
    scale: timeScale(fromAt, untilAt, place.left, place.right),
    unit: "auto" as const,
    measure: estimate,
  };
  return { model, place, frame };
};

const atRest = ({ model, place, frame }: ReturnType<typeof drawn>): readonly Group[] => [
  ...stillGroups(model, place, frame, null),
  ...liveGroups(model, place, frame, null),
];

describe("golden pictures", () => {
  it("the whole campaign", () => {
    const view = drawn(1000, 480, day(-30), day(200));
    expectGolden("timeline-whole", toSvg({ width: 1000, height: 480, groups: atRest(view) }, goldenTheme));
  });
  it("three weeks, with the cursor", () => {
    const view = drawn(1000, 480, day(15), day(50));
    const groups = [...atRest(view), ...cursorGroups(view.model, view.place, view.frame, 420)];
    expectGolden("timeline-near", toSvg({ width: 1000, height: 480, groups }, goldenTheme));
  });
  it("compared with another case", () => {
    const view = drawn(1000, 480, day(-30), day(200), true);
    expectGolden("timeline-compared", toSvg({ width: 1000, height: 480, groups: atRest(view) }, goldenTheme));
  });
  it("a flight held in the hand, over the ghost of the old plan", () => {
    const { model, place, frame } = drawn(1000, 480, day(-30), day(200));
    const grab = { kind: "flight", id: "flight-1", grip: "body" } as const;
    const after = movedModel(model, moved(model.plan, grab, 45 * 86_400_000)!);
    const groups = [
      ...stillGroups(model, place, frame, grab),
      ...ghostGroups(model, place, frame, grab),
      ...liveGroups(after, place, frame, grab),
      ...heldGroups(after, place, frame, grab),
    ];
    expectGolden("timeline-held", toSvg({ width: 1000, height: 480, groups }, goldenTheme));
  });
  it("the head: overview and axis", () => {
    const { model, frame } = drawn(1000, 480, day(-30), day(200));
    expectGolden(
      "timeline-head",
      toSvg({ width: 1000, height: HEAD_HEIGHT, groups: headGroups(model, frame, 1000) }, goldenTheme),
    );
  });
});

const textBox = (shape: TextShape) => {
  const width = estimate(shape.text, shape.size, shape.isBold);
  const left = shape.anchor === "start" ? shape.x : shape.anchor === "end" ? shape.x - width : shape.x - width / 2;
  return {
    left,
    right: left + width,
    top: shape.y - shape.size / 2,
    bottom: shape.y + shape.size / 2,
    text: shape.text,
  };
};

const isText = (shape: Shape): shape is TextShape => shape.kind === "text";

const overlaps = (groups: readonly Group[]): readonly string[] => {
  const boxes = groups.flatMap((group) => group.shapes.filter(isText).map(textBox));
  return boxes.flatMap((a, index) =>
    boxes
      .slice(index + 1)
      .filter((b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom)
      .map((b) => `"${a.text}" and "${b.text}"`),
  );
};

describe("no text covers another", () => {
  const spans = [
    [-30, 200],
    [-30, 30],
    [15, 50],
    [38, 42],
    [55, 80],
    [60, 62.5],
  ] as const;
  it.each(spans.flatMap(([from, until]) => [700, 1000, 1400].map((width) => [from, until, width] as const)))(
    "from day %f to day %f on %i pixels",
    (from, until, width) => {
      const view = drawn(width, 560, day(from), day(until), true);
      expect(overlaps(atRest(view))).toEqual([]);
      expect(overlaps(headGroups(view.model, view.frame, width))).toEqual([]);
    },
  );
});

it("no number of a picture is missing", () => {
  const svg = toSvg(
    { width: 1000, height: 480, groups: atRest(drawn(1000, 480, day(-30), day(200), true)) },
    goldenTheme,
  );
  expect(svg).not.toMatch(/NaN|undefined|Infinity/);
});

it("a status is said in a word and a shape, not in colour alone", () => {
  const shapes = liveGroups(...restOf(drawn(1400, 480, day(-30), day(200)))).flatMap((group) => group.shapes);
  const statuses = current.glance.sorties.map((supply) => supply.status);
  expect(shapes.flatMap((shape) => (shape.kind === "status" ? [shape.status] : []))).toEqual(statuses);
  const words = shapes.filter(isText).map((shape) => shape.text);
  for (const status of statuses) expect(words.some((text) => text.startsWith(status))).toBe(true);
});

const restOf = ({ model, place, frame }: ReturnType<typeof drawn>) => [model, place, frame, null] as const;

it("what is overdue is drawn apart from facts and plans: hatched, broken, and said", () => {
  // Wagon 1 was to arrive on day −6 and has no record; the past of its tank is known from day −30 on.
  const plan = smallPlan();
  const flights = plan.flights.map((flight) =>
    flight.id === "flight-1"
      ? { ...flight, status: "departed" as const, departAt: day(-16), arriveAt: day(-6) }
      : flight,
  );
  const base = smallCase({ flights });
  const past = [
    {
      tankId: "hydrogen-tank",
      segments: [{ startAt: day(-30), endAt: day(0), m0Kg: 5000, kPerDay: 0, cKgPerDay: 10, fKgPerDay: 0 }],
    },
  ];
  const late = { ...base, view: { ...base.view, past } };
  const model = timelineModel(late, null, null)!;
  expect([...model.overdue]).toEqual(["flight-1"]);
  expect(model.levels[0]!.assumed).toEqual([{ fromAt: day(-6), untilAt: day(0) }]);
  const place = placeTimeline(model, 1400, 480);
  const frame = {
    scale: timeScale(day(-30), day(60), place.left, place.right),
    unit: "auto" as const,
    measure: estimate,
  };
  const shapes = stillGroups(model, place, frame, null).flatMap((group) => group.shapes);
  const [fromX, untilX] = [frame.scale.x(day(-6)), frame.scale.x(day(0))];
  const broken = shapes.flatMap((shape) =>
    shape.kind === "path" && shape.width === 2.25 && shape.dash !== undefined && shape.ink.startsWith("propellant")
      ? [[shape.points[0], shape.points[shape.points.length - 2]]]
      : [],
  );
  expect(broken).toEqual([[expect.closeTo(fromX, 6), expect.closeTo(untilX, 6)]]);
  expect(shapes.some((shape) => shape.kind === "area" && shape.texture === "hatched" && shape.ink === "ink-soft")).toBe(
    true,
  );
  // Short names leave out what the lane's title says.
  expect(shapes.filter(isText).map(({ text }) => text)).toContainEqual(expect.stringMatching(/^(Wagon )?1, overdue$/));
});
