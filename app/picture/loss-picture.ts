/** Loss by cause, stacked by month: what went by boil-off, handover, vent and unaccounted; what was found again hangs below. */
import { scaleLinear } from "d3-scale";
import { formatNumber, withUnit } from "../format/number.ts";
import type { StatementSums } from "../ledger/statement-sums.ts";
import { causeStack } from "../losses/cause-stack.ts";
import { type LossCause, lossCauseName, lossCauses } from "../losses/statement.ts";
import type { Ink } from "./ink.ts";
import type { Look, Size } from "./look.ts";
import { plotOf, rulesAcross } from "./panel.ts";
import { type AreaShape, line, type Picture, type Shape, words } from "./shape.ts";

export interface LossPictureInput {
  readonly months: readonly StatementSums[];
  readonly labelOf: (fromAt: number) => string;
  readonly ink: Ink;
}

/** A cause is told by its texture before its tone, so that a printer without colours tells them apart, too. */
const fills: {
  readonly [C in LossCause]: Pick<AreaShape, "texture" | "alpha"> & { readonly ink: Ink | "propellant" };
} = {
  boilOffGrams: { ink: "propellant", texture: "flat", alpha: 0.85 },
  handoverLossGrams: { ink: "propellant", texture: "hatched", alpha: 1 },
  ventedGrams: { ink: "ink-soft", texture: "ruled", alpha: 1 },
  unaccountedGrams: { ink: "status-thin", texture: "flat", alpha: 0.5 },
};

/** A piece of a bar, or of the key, with its edge. */
const piece = (cause: LossCause, ink: Ink, [a, top, b, bottom]: readonly number[], look: Look): readonly Shape[] => {
  const fill = fills[cause];
  const colour = fill.ink === "propellant" ? ink : fill.ink;
  const [x = 0, y = 0, right = 0, foot = 0] = [a, top, b, bottom];
  return [
    {
      kind: "area",
      points: [x, y, right, y, right, foot, x, foot],
      ink: colour,
      texture: fill.texture,
      alpha: fill.alpha,
    },
    { kind: "rect", x, y, width: right - x, height: foot - y, fill: null, edge: colour, edgeWidth: look.edge },
  ];
};

/** What a month's name takes, in sizes of the text. */
const LABEL = 5.2;
/** What the key takes beside the plot. */
const KEY = 12;

/** The causes that occur, named beside the bars with their texture and sum. */
const key = (
  { months, ink }: LossPictureInput,
  { left, top }: { readonly left: number; readonly top: number },
  look: Look,
): readonly Shape[] => {
  const em = look.text;
  return lossCauses
    .map((cause) => ({ cause, kg: months.reduce((sum, month) => sum + month[cause], 0) / 1000 }))
    .filter(({ cause }) => months.some((month) => month[cause] !== 0))
    .flatMap(({ cause, kg }, place): readonly Shape[] => {
      const y = top + 0.7 * em + place * 3 * em;
      return [
        ...piece(cause, ink, [left, y - 0.45 * em, left + 1.1 * em, y + 0.45 * em], look),
        words(left + 1.65 * em, y, lossCauseName[cause], { size: look.name, ink: "ink" }),
        words(left + 1.65 * em, y + 1.25 * em, withUnit(formatNumber(kg, 1), "kg"), { size: em }),
      ];
    });
};

export const lossPicture = (input: LossPictureInput, size: Size, look: Look): Picture => {
  const { months, labelOf, ink } = input;
  const em = look.text;
  const plot = plotOf(size, look, { top: 1.3 * em, right: KEY * em, foot: 2.4 * em });
  const { left, right, top, bottom } = plot;
  const stacks = months.map(causeStack);
  const all = stacks.flat();
  const lowest = Math.min(0, ...all.map(({ lowKg }) => lowKg));
  const highest = Math.max(0, ...all.map(({ highKg }) => highKg));
  const y = scaleLinear()
    .domain(highest > lowest ? [1.05 * lowest, 1.05 * highest] : [0, 1])
    .range([bottom, top]);
  const ticks = y.ticks(4);
  const decimals = ticks.some((tick) => !Number.isInteger(tick)) ? 1 : 0;
  const room = (right - left) / Math.max(1, months.length);
  const half = Math.min(2.2 * em, room * 0.35);
  const every = Math.max(1, Math.ceil((LABEL * em) / room));
  const shapes: readonly Shape[] = [
    ...rulesAcross(
      plot,
      ticks.map((kg, place) => {
        const figure = formatNumber(kg, decimals);
        return { at: y(kg), label: place === ticks.length - 1 ? withUnit(figure, "kg") : figure };
      }),
      look,
    ),
    ...months.flatMap(({ fromAt }, place): readonly Shape[] => {
      const middle = left + room * (place + 0.5);
      return [
        ...(stacks[place] ?? []).flatMap(({ cause, lowKg, highKg }) =>
          piece(cause, ink, [middle - half, y(highKg), middle + half, y(lowKg)], look),
        ),
        ...(place % every === 0
          ? [words(middle, bottom + 1.3 * em, labelOf(fromAt), { size: em, anchor: "middle" })]
          : []),
      ];
    }),
    line(left, y(0), right, y(0), "ink-soft", look.edge),
    ...key(input, { left: right + 1.1 * em, top }, look),
  ];
  return { ...size, groups: [{ clip: null, shapes }] };
};
