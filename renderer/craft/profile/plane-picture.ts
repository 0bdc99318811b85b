/** The load of a sortie over the day of lift-off, and under it how far the site lies off the plane then. */
import { ticks } from "d3-array";
import { costOf, isCountedOnGround, type PlaneCurve, type PlanePoint } from "../../../app/sortie/plane-curve.ts";
import { line, type Picture, type Shape } from "../../../app/picture/shape.ts";
import { formatNumber } from "../../format/number.ts";

const MARGIN = { left: 60, right: 16, top: 22, bottom: 44, between: 30 } as const;

interface Panel {
  readonly name: string;
  readonly top: number;
  readonly bottom: number;
  readonly value: (point: PlanePoint) => number;
}

export const planePicture = (curve: PlaneCurve, size: { readonly width: number; readonly height: number }): Picture => {
  const { width, height } = size;
  const [left, right, foot] = [MARGIN.left, width - MARGIN.right, height - MARGIN.bottom];
  const lastDay = curve.points.at(-1)?.stayDays ?? 1;
  const x = (days: number): number => left + ((right - left) * days) / lastDay;
  const divide = MARGIN.top + (foot - MARGIN.top - MARGIN.between) * 0.62;
  const isOnGround = isCountedOnGround(curve);
  const panels: readonly Panel[] = [
    {
      name: isOnGround ? "loaded on the ground for it, t" : "load, t",
      top: MARGIN.top,
      bottom: divide,
      value: (point) => (isOnGround ? costOf(point) : point.loadKg) / 1000,
    },
    { name: "off the plane, °", top: divide + MARGIN.between, bottom: foot, value: ({ offDeg }) => offDeg },
  ];
  const shapes: Shape[] = [];
  for (const { name, top, bottom, value } of panels) {
    const values = [...curve.points, curve.own].map(value);
    const [low, high] = [Math.min(...values), Math.max(...values)];
    const room = Math.max(high - low, 1e-6) * 1.08;
    const y = (v: number): number => bottom - ((bottom - top) * (v - low)) / room;
    for (const tick of ticks(low, high, 3)) {
      shapes.push(line(left, y(tick), right, y(tick), "rule"));
      const text = formatNumber(tick, high - low < 4 ? 1 : 0);
      shapes.push({ kind: "text", x: left - 6, y: y(tick), text, ink: "ink-soft", size: 11, anchor: "end" });
    }
    shapes.push(line(left, top, left, bottom, "hairline"), line(left, bottom, right, bottom, "hairline"));
    const points = curve.points.flatMap((point) => [x(point.stayDays), y(value(point))]);
    shapes.push({ kind: "path", points, ink: "accent", width: 1.5 });
    shapes.push({ kind: "text", x: left, y: top - 10, text: name, ink: "ink", size: 12, anchor: "start" });
  }
  for (const tick of ticks(0, lastDay, 8)) {
    shapes.push(line(x(tick), foot, x(tick), foot + 4, "hairline"));
    shapes.push({
      kind: "text",
      x: x(tick),
      y: foot + 13,
      text: formatNumber(tick),
      ink: "ink-soft",
      size: 11,
      anchor: "middle",
    });
  }
  shapes.push({
    kind: "text",
    x: (left + right) / 2,
    y: foot + 32,
    text: "lift-off, days after landing",
    ink: "ink-soft",
    size: 11,
    anchor: "middle",
  });
  // The profile's own stay: a line through both panels, named at its head.
  const own = x(Math.min(lastDay, curve.own.stayDays));
  shapes.push(line(own, MARGIN.top, own, foot, "ink-soft"));
  const isRight = own > (left + right) / 2;
  shapes.push({
    kind: "text",
    x: own + (isRight ? -5 : 5),
    y: MARGIN.top - 10,
    text: "this profile",
    ink: "ink",
    size: 11,
    anchor: isRight ? "end" : "start",
  });
  return { width, height, groups: [{ clip: null, shapes }] };
};
