/** The curve of a study, on screen and on paper: every word within, the plan as it is named beside no other name, turns hatched. */
import { describe, expect, test } from "vitest";
import { paperLook, screenLook } from "../../../app/picture/look.ts";
import { type StudyCurve, studyCurveAxes, studyCurvePicture } from "../../../app/picture/study-curve-picture.ts";
import { estimate } from "../../renderer/golden/golden.ts";
import { outsideOf, shapesOf, textsOf, wordsOf } from "./shapes-of.ts";

const curve: StudyCurve = {
  across: { words: "reserve in Tarn hydrogen", unit: "kg" },
  up: { words: "all fly when planned", unit: "share" },
  points: [
    { x: 1000, low: 0.9, middle: 0.95, high: 0.99, count: 1 },
    { x: 2000, low: 0.8, middle: 0.85, high: 0.9, count: 1 },
    { x: 3000, low: 0.2, middle: 0.4, high: 0.5, count: 1 },
  ],
  today: 1500,
  turns: [{ below: 2000, above: 3000 }],
  massUnit: "t",
  notes: ["Hatched: between these"],
};
const looks = [
  ["screen", screenLook, { width: 900, height: 300 }],
  ["a narrow screen", screenLook, { width: 420, height: 300 }],
  ["paper", paperLook, { width: 500, height: 185 }],
] as const;

describe.each(looks)("on %s", (_, look, size) => {
  test("nothing lies outside, and no two texts on each other, wherever the plan stands", () => {
    for (const today of [null, 1000, 1200, 1500, 2000, 2950, 3000, 5000]) {
      const picture = studyCurvePicture({ ...curve, today }, size, look);
      expect(outsideOf(picture)).toEqual([]);
      const boxes = textsOf(picture).map(({ x, y, text, size: high, anchor, isBold }) => {
        const wide = estimate(text, high, isBold);
        const left = x - (anchor === "start" ? 0 : anchor === "end" ? wide : wide / 2);
        expect(left).toBeGreaterThanOrEqual(0);
        expect(left + wide).toBeLessThanOrEqual(size.width);
        return { text, left, right: left + wide, top: y - high / 2, bottom: y + high / 2 };
      });
      const over = boxes.flatMap((a, n) =>
        boxes
          .slice(n + 1)
          .filter((b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom)
          .map((b) => [a.text, b.text]),
      );
      expect(over).toEqual([]);
    }
  });

  test("masses are in the unit chosen, probabilities per cent; where it turns is hatched from value to value", () => {
    const picture = studyCurvePicture(curve, size, look);
    const words = wordsOf(picture);
    expect(words).toContain("Reserve in Tarn hydrogen, t");
    expect(words).toContain("All fly when planned, %");
    expect(words).toContain("the plan as it is");
    expect(words).toContain("Hatched: between these");
    const { x } = studyCurveAxes(curve, size, look);
    const hatched = shapesOf(picture).filter((shape) => shape.kind === "area" && shape.texture === "hatched");
    expect(hatched.map((shape) => (shape.kind === "area" ? [shape.points[0], shape.points[2]] : []))).toEqual([
      [x.at(2000), x.at(3000)],
    ]);
    expect(x.of(x.at(2400))).toBeCloseTo(2400, 9);
  });
});
