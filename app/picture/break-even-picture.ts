/** Kilograms from the ground over the number of sorties, two ways against each other, with their break-even. */
import { scaleLinear } from "d3-scale";
import { formatNumber } from "../format/number.ts";
import type { BreakEven } from "../ways/break-even.ts";
import { overCampaign, type WayLifted } from "../ways/lifted.ts";
import type { Ink } from "./ink.ts";
import type { Look, Size } from "./look.ts";
import { footEdge, footName, headName, type Plot, plotOf, rulesAcross, ticksUnder } from "./panel.ts";
import { line, type Picture, type Shape, words } from "./shape.ts";

export interface BreakEvenShown {
  readonly a: WayLifted;
  readonly b: WayLifted;
  readonly found: BreakEven;
  /** Of the campaign. */
  readonly sorties: number;
  readonly massUnit: "t" | "kg";
}

/** Beyond it the picture would be all break-even and no beginning. */
export const MAX_SORTIES = 60;

/** Past the break-even and the campaign. */
const lastSortie = ({ found, sorties }: BreakEvenShown): number =>
  Math.min(MAX_SORTIES, Math.max(4, sorties, found.kind === "at" ? Math.ceil(found.sorties * 1.6) : 0));

/** Both ways from one sortie to past break-even and campaign, inside a plot. */
export const breakEvenShapes = (shown: BreakEvenShown, plot: Plot, look: Look): readonly Shape[] => {
  const { a, b, found, sorties, massUnit } = shown;
  const { left, right, top, bottom } = plot;
  const em = look.text;
  const last = lastSortie(shown);
  const perUnit = massUnit === "t" ? 1000 : 1;
  const mass = (way: WayLifted, n: number): number => overCampaign(way, n).totalKg / perUnit;
  const x = scaleLinear().domain([1, last]).range([left, right]);
  const y = scaleLinear()
    .domain([0, 1.04 * Math.max(mass(a, last), mass(b, last)) || 1])
    .range([bottom, top]);
  const counts = Array.from({ length: last }, (_, i) => i + 1);
  const ways: readonly (readonly [WayLifted, Ink])[] = [
    [a, "accent"],
    [b, "ink"],
  ];
  const isRight = (at: number): boolean => at > (left + right) / 2;
  // Beside the words above the plot there is no room near its left end: there the campaign is named inside.
  const ofCampaign = x(sorties);
  const isInside = ofCampaign < left + 14 * em;
  return [
    headName(plot, `From the ground, ${massUnit}`, look),
    ...rulesAcross(
      plot,
      y.ticks(4).map((tick) => ({ at: y(tick), label: formatNumber(tick) })),
      look,
    ),
    footEdge(plot, look),
    ...ticksUnder(
      plot,
      x
        .ticks(8)
        .filter(Number.isInteger)
        .map((tick) => ({ at: x(tick), label: formatNumber(tick) })),
      look,
    ),
    footName(plot, "sorties", look),
    ...(sorties > last
      ? []
      : [
          line(ofCampaign, top, ofCampaign, bottom, "hairline", look.edge),
          words(ofCampaign + (isInside ? 0.5 * em : 0), isInside ? bottom - 2.4 * em : top - 0.9 * em, "campaign", {
            size: em,
            anchor: isInside ? "start" : isRight(ofCampaign) ? "end" : "middle",
            halo: "sheet",
          }),
        ]),
    ...ways.map(([way, ink]): Shape => ({
      kind: "path",
      points: counts.flatMap((n) => [x(n), y(mass(way, n))]),
      ink,
      width: look.curve,
    })),
    // Named along the left of the plot, in the order in which the lines end, so that the names never lie on each other.
    ...ways
      .toSorted(([p], [q]) => mass(q, last) - mass(p, last))
      .map(([way, ink], i) =>
        words(left + 0.9 * em, top + (0.9 + i * 1.5) * em, way.way.name, {
          size: look.name,
          ink,
          isBold: true,
          halo: "sheet",
        }),
      ),
    ...(found.kind === "at" && found.sorties <= last
      ? [
          line(x(found.sorties), y(mass(a, found.sorties)), x(found.sorties), bottom, "ink-soft", look.edge, look.dash),
          words(
            x(found.sorties) + (isRight(x(found.sorties)) ? -0.5 * em : 0.5 * em),
            bottom - 0.9 * em,
            `break-even ${formatNumber(found.sorties, 1)}`,
            { size: em, ink: "ink", anchor: isRight(x(found.sorties)) ? "end" : "start", halo: "sheet" },
          ),
        ]
      : []),
  ];
};

/** The same as a picture of its own. */
export const breakEvenPicture = (shown: BreakEvenShown, size: Size, look: Look): Picture => ({
  ...size,
  groups: [{ clip: null, shapes: breakEvenShapes(shown, plotOf(size, look), look) }],
});
