/** Loss by cause, stacked by month: what was found again hangs below the line. */
import { scaleLinear } from "d3-scale";
import { formatNumber, NARROW_SPACE } from "../../format/number.ts";
import { causeStack } from "../../losses/cause-stack.ts";
import { type LossCause, lossCauseName, lossCauses } from "../../losses/statement.ts";
import type { StatementSums } from "../../ledger/statement-sums.ts";
import { type Plot, round, valueAxis } from "./axis.ts";
import { type Ink, pathShape, type Picture, type Shape, textShape } from "./picture.ts";

export interface LossPictureInput {
  readonly width: number;
  readonly height: number;
  readonly months: readonly StatementSums[];
  readonly labelOf: (fromAt: number) => string;
  readonly ink: Ink;
}

type Look = Parameters<typeof pathShape>[1];

/** Told apart on a printer without colours: full, light, open with a dashed edge, dotted edge. */
const lookOf = (cause: LossCause, ink: Ink): Look => {
  const looks: { readonly [C in LossCause]: Look } = {
    boilOffGrams: { fill: ink, stroke: ink, width: 0.5 },
    handoverLossGrams: { fill: ink, fillOpacity: 0.3, stroke: ink, width: 0.5 },
    ventedGrams: { fill: "ground", stroke: "quiet", width: 0.7, dash: [2, 1.2] },
    unaccountedGrams: { fill: "warning", fillOpacity: 0.35, stroke: "warning", width: 0.7, dash: [0.8, 0.8] },
  };
  return looks[cause];
};

const box = (left: number, top: number, right: number, bottom: number): string =>
  `M${round(left)},${round(top)}H${round(right)}V${round(bottom)}H${round(left)}Z`;

const key = (months: readonly StatementSums[], ink: Ink, left: number, top: number): readonly Shape[] =>
  lossCauses
    .map((cause) => ({ cause, kg: months.reduce((sum, month) => sum + month[cause], 0) / 1000 }))
    .filter(({ cause }) => months.some((month) => month[cause] !== 0))
    .flatMap(({ cause, kg }, place): readonly Shape[] => {
      const y = top + place * 21;
      return [
        pathShape(box(left, y, left + 8, y + 7), lookOf(cause, ink)),
        textShape(left + 12, y + 6, lossCauseName[cause], { size: 7 }),
        textShape(left + 12, y + 14, `${formatNumber(kg, 1)}${NARROW_SPACE}kg`, { size: 7, ink: "quiet" }),
      ];
    });

/** About what a month's name takes, points. */
const LABEL = 34;

/** Draws it; kg, size in points. */
export const lossPicture = ({ width, height, months, labelOf, ink }: LossPictureInput): Picture => {
  const plot: Plot = { left: 44, top: 10, right: width - 78, bottom: height - 18 };
  const pieces = months.map(causeStack);
  const all = pieces.flat();
  const lowest = Math.min(0, ...all.map(({ lowKg }) => lowKg));
  const highest = Math.max(0, ...all.map(({ highKg }) => highKg));
  const y = scaleLinear()
    .domain(highest > lowest ? [lowest, highest] : [0, 1])
    .nice(4)
    .range([plot.bottom, plot.top]);
  const room = (plot.right - plot.left) / Math.max(1, months.length);
  const half = Math.min(17, room * 0.35);
  const every = Math.max(1, Math.ceil(LABEL / room));
  return {
    width,
    height,
    shapes: [
      ...valueAxis(plot, y, "kg", { perUnit: 1 }),
      ...months.flatMap(({ fromAt }, place): readonly Shape[] => {
        const middle = plot.left + room * (place + 0.5);
        return [
          ...(pieces[place] ?? []).map(({ cause, lowKg, highKg }) =>
            pathShape(box(middle - half, y(highKg), middle + half, y(lowKg)), lookOf(cause, ink)),
          ),
          ...(place % every === 0
            ? [
                textShape(round(middle), plot.bottom + 12, labelOf(fromAt), {
                  size: 7,
                  ink: "quiet",
                  anchor: "middle",
                }),
              ]
            : []),
        ];
      }),
      pathShape(`M${plot.left},${round(y(0))}H${plot.right}`, { stroke: "quiet", width: 0.75 }),
      ...key(months, ink, plot.right + 8, plot.top),
    ],
  };
};
