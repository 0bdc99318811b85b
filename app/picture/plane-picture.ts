/** The load of a sortie over the day of its lift-off, and under it how far the site lies off the plane then. */
import { scaleLinear } from "d3-scale";
import { formatNumber } from "../format/number.ts";
import { costOf, isCountedOnGround, type PlaneCurve, type PlanePoint } from "../sortie/plane-curve.ts";
import type { Look, Size } from "./look.ts";
import { footEdge, footName, headName, type Plot, plotOf, rulesAcross, ticksUnder } from "./panel.ts";
import { line, type Picture, type Shape, words } from "./shape.ts";

interface Panel {
  readonly name: string;
  readonly top: number;
  readonly bottom: number;
  readonly value: (point: PlanePoint) => number;
  /** Whether its values begin at 0; else at the least of them. */
  readonly isFromZero: boolean;
}

const panelShapes = (
  curve: PlaneCurve,
  whole: Plot,
  x: (days: number) => number,
  { name, top, bottom, value, isFromZero }: Panel,
  look: Look,
): readonly Shape[] => {
  const plot: Plot = { ...whole, top, bottom };
  const values = [...curve.points, curve.own].map(value);
  const most = Math.max(...values);
  const least = isFromZero ? 0 : Math.min(...values);
  const y = scaleLinear()
    .domain([least, most > least ? most : least + 1])
    .nice(3)
    .range([bottom, top]);
  const ticks = y.ticks(3);
  const decimals = ticks.some((tick) => !Number.isInteger(tick)) ? 1 : 0;
  return [
    headName(plot, name, look),
    ...rulesAcross(
      plot,
      ticks.map((tick) => ({ at: y(tick), label: formatNumber(tick, decimals) })),
      look,
    ),
    footEdge(plot, look),
    {
      kind: "path",
      points: curve.points.flatMap((point) => [x(point.stayDays), y(value(point))]),
      ink: "accent",
      width: look.curve,
    },
  ];
};

/** Both panels over the days from landing; the profile's own stay is marked. */
export const planePicture = (curve: PlaneCurve, massUnit: "t" | "kg", size: Size, look: Look): Picture => {
  const plot = plotOf(size, look);
  const lastDay = curve.points.at(-1)?.stayDays ?? 1;
  const scale = scaleLinear().domain([0, lastDay]).range([plot.left, plot.right]);
  const gap = 3 * look.text;
  const divide = plot.top + (plot.bottom - plot.top - gap) * 0.61;
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
      top: divide + gap,
      bottom: plot.bottom,
      value: ({ offDeg }) => offDeg,
      isFromZero: true,
    },
  ];
  const own = scale(Math.min(lastDay, curve.own.stayDays));
  const isRight = own > (plot.left + plot.right) / 2;
  const beside = isRight ? -0.5 * look.text : 0.5 * look.text;
  const shapes: readonly Shape[] = [
    ...panels.flatMap((panel) => panelShapes(curve, plot, scale, panel, look)),
    ...ticksUnder(
      plot,
      scale.ticks(8).map((tick) => ({ at: scale(tick), label: formatNumber(tick) })),
      look,
    ),
    footName(plot, "lift-off, days after landing", look),
    line(own, plot.top, own, plot.bottom, "ink-soft", look.edge, look.dash),
    words(own + beside, plot.top - 0.9 * look.text, "this profile", {
      size: look.text,
      ink: "ink",
      anchor: isRight ? "end" : "start",
    }),
  ];
  return { ...size, groups: [{ clip: null, shapes }] };
};
