/** Kilograms from the ground over the number of sorties, two ways against each other, with their break-even. */
import { scaleLinear } from "d3-scale";
import { line } from "d3-shape";
import { formatNumber } from "../../format/number.ts";
import type { BreakEven } from "../../ways/break-even.ts";
import { overCampaign, type WayLifted } from "../../ways/lifted.ts";
import { type Plot, round, valueScale } from "./axis.ts";
import { type Ink, type Picture, type Shape, pathShape, textShape } from "./picture.ts";

interface Frame {
  readonly width: number;
  readonly height: number;
  readonly massUnit: "t" | "kg";
}

/** Beyond it the picture would be all break-even and no beginning. */
const MOST_SORTIES = 60;

/** Both ways from one sortie to past break-even and campaign. Size in points. */
export const breakEvenPicture = (
  [a, b]: readonly [WayLifted, WayLifted],
  found: BreakEven,
  sorties: number,
  { width, height, massUnit }: Frame,
): Picture => {
  const plot: Plot = { left: 44, top: 16, right: width - 12, bottom: height - 26 };
  const past = found.kind === "at" ? Math.ceil(found.sorties * 1.6) : 0;
  const last = Math.min(MOST_SORTIES, Math.max(4, sorties, past));
  const perUnit = massUnit === "t" ? 1000 : 1;
  const mass = (way: WayLifted, n: number): number => overCampaign(way, n).totalKg / perUnit;
  const x = scaleLinear().domain([1, last]).range([plot.left, plot.right]);
  const y = valueScale(plot, Math.max(mass(a, last), mass(b, last)));
  const counts = Array.from({ length: last }, (_, i) => i + 1);
  const ways: readonly (readonly [WayLifted, Ink])[] = [
    [a, "first"],
    [b, "second"],
  ];
  const curve = (way: WayLifted): string =>
    line<number>(
      (n) => round(x(n)),
      (n) => round(y(mass(way, n))),
    )(counts) ?? "";
  const names = ways
    .toSorted(([p], [q]) => mass(q, last) - mass(p, last))
    .map(([way, ink], i) =>
      textShape(plot.left + 8, plot.top + 8 + i * 11, way.way.name, { size: 7.5, ink, isBold: true }),
    );
  const marked: readonly Shape[] =
    found.kind === "at" && found.sorties <= last
      ? [
          pathShape(`M${round(x(found.sorties))},${round(y(mass(a, found.sorties)))}V${plot.bottom}`, {
            stroke: "quiet",
            width: 0.75,
            dash: [2, 2],
          }),
          textShape(
            round(x(found.sorties)) + (x(found.sorties) > width / 2 ? -4 : 4),
            plot.bottom - 5,
            `break-even ${formatNumber(found.sorties, 1)}`,
            { size: 7, ink: "text", anchor: x(found.sorties) > width / 2 ? "end" : "start" },
          ),
        ]
      : [];
  return {
    width,
    height,
    shapes: [
      textShape(plot.left, plot.top - 6, `From the ground, ${massUnit}`, { size: 7, ink: "text", isBold: true }),
      ...y
        .ticks(4)
        .flatMap((tick) => [
          pathShape(`M${plot.left},${round(y(tick))}H${plot.right}`, { stroke: "hairline", width: 0.35 }),
          textShape(plot.left - 5, round(y(tick)) + 2.5, formatNumber(tick), { size: 7, ink: "quiet", anchor: "end" }),
        ]),
      ...x
        .ticks(8)
        .filter(Number.isInteger)
        .map((tick) =>
          textShape(round(x(tick)), plot.bottom + 10, formatNumber(tick), { size: 7, ink: "quiet", anchor: "middle" }),
        ),
      textShape(round((plot.left + plot.right) / 2), plot.bottom + 21, "sorties", {
        size: 7,
        ink: "quiet",
        anchor: "middle",
      }),
      ...ways.map(([way, ink]) => pathShape(curve(way), { stroke: ink, width: 1 })),
      ...names,
      ...marked,
    ],
  };
};
