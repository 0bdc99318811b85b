/** The load of a sortie over the day of its lift-off, and under it how far the site lies off the plane then. */
import { scaleLinear } from "d3-scale";
import { line } from "d3-shape";
import { costOf, isCountedOnGround, type PlaneCurve, type PlanePoint } from "../../sortie/plane-curve.ts";
import { formatNumber } from "../../format/number.ts";
import { type Plot, round } from "./axis.ts";
import { type Picture, type Shape, pathShape, textShape } from "./picture.ts";

interface Frame {
  readonly width: number;
  readonly height: number;
  readonly massUnit: "t" | "kg";
}

interface Panel {
  readonly name: string;
  readonly top: number;
  readonly bottom: number;
  readonly value: (point: PlanePoint) => number;
  /** Whether its values begin at 0; else at the least of them. */
  readonly isFromZero: boolean;
}

const GAP = 26;

const panelShapes = (
  curve: PlaneCurve,
  { left, right }: Plot,
  x: (days: number) => number,
  { name, top, bottom, value, isFromZero }: Panel,
): readonly Shape[] => {
  const values = [...curve.points, curve.own].map(value);
  const most = Math.max(...values);
  const least = isFromZero ? 0 : Math.min(...values);
  const scale = scaleLinear()
    .domain([least, most > least ? most : least + 1])
    .nice(3)
    .range([bottom, top]);
  const ticks = scale.ticks(3);
  const decimals = ticks.some((tick) => !Number.isInteger(tick)) ? 1 : 0;
  const path = line<PlanePoint>(
    ({ stayDays }) => x(stayDays),
    (point) => round(scale(value(point))),
  );
  return [
    textShape(left, top - 6, name, { size: 7, ink: "text", isBold: true }),
    ...ticks.flatMap((tick) => [
      pathShape(`M${left},${round(scale(tick))}H${right}`, { stroke: "hairline", width: 0.35 }),
      textShape(left - 5, round(scale(tick)) + 2.5, formatNumber(tick, decimals), {
        size: 7,
        ink: "quiet",
        anchor: "end",
      }),
    ]),
    pathShape(`M${left},${bottom}H${right}`, { stroke: "hairline", width: 0.75 }),
    pathShape(path(curve.points) ?? "", { stroke: "first", width: 1 }),
  ];
};

/** Both panels over the days from landing; the profile's own stay and the one that takes least are marked. Size in points. */
export const planePicture = (curve: PlaneCurve, { width, height, massUnit }: Frame): Picture => {
  const plot: Plot = { left: 44, top: 16, right: width - 12, bottom: height - 26 };
  const lastDay = curve.points.at(-1)?.stayDays ?? 1;
  const scale = scaleLinear().domain([0, lastDay]).range([plot.left, plot.right]);
  const x = (days: number): number => round(scale(Math.min(lastDay, days)));
  const divide = round(plot.top + (plot.bottom - plot.top - GAP) * 0.6);
  const perUnit = massUnit === "t" ? 1000 : 1;
  const isOnGround = isCountedOnGround(curve);
  const panels: readonly Panel[] = [
    {
      name: `${isOnGround ? "Loaded on the ground for it" : "Load"}, ${massUnit}`,
      top: plot.top,
      bottom: divide,
      value: (point) => (isOnGround ? costOf(point) : point.loadKg) / perUnit,
      isFromZero: false,
    },
    {
      name: "Off the plane, °",
      top: divide + GAP,
      bottom: plot.bottom,
      value: ({ offDeg }) => offDeg,
      isFromZero: true,
    },
  ];
  const own = x(curve.own.stayDays);
  const isRight = own > (plot.left + plot.right) / 2;
  return {
    width,
    height,
    shapes: [
      ...panels.flatMap((panel) => panelShapes(curve, plot, x, panel)),
      ...scale
        .ticks(8)
        .map((tick) =>
          textShape(x(tick), plot.bottom + 10, formatNumber(tick), { size: 7, ink: "quiet", anchor: "middle" }),
        ),
      textShape(round((plot.left + plot.right) / 2), plot.bottom + 21, "lift-off, days after landing", {
        size: 7,
        ink: "quiet",
        anchor: "middle",
      }),
      pathShape(`M${own},${plot.top}V${plot.bottom}`, { stroke: "quiet", width: 0.75, dash: [2, 2] }),
      textShape(own + (isRight ? -4 : 4), plot.top - 6, "this profile", {
        size: 7,
        ink: "text",
        anchor: isRight ? "end" : "start",
      }),
    ],
  };
};
