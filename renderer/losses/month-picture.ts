/** Loss by cause, stacked by month: what went by boil-off, handover, vent and unaccounted; what was found again hangs below. */
import { causeStack } from "../../app/losses/cause-stack.ts";
import { type LossCause, lossCauseName, lossCauses } from "../../app/losses/statement.ts";
import type { StatementSums } from "../../app/ledger/statement-sums.ts";
import { tickStep, ticks } from "d3-array";
import type { Ink } from "../../app/picture/ink.ts";
import { type AreaShape, line, type Picture, type Shape } from "../../app/picture/shape.ts";
import { formatNumber } from "../format/number.ts";

const MARGIN = { left: 56, right: 132, top: 14, bottom: 26 } as const;

/** A cause is told by its texture before its tone. */
const looks: {
  readonly [C in LossCause]: Pick<AreaShape, "texture" | "alpha"> & { readonly ink: Ink | "propellant" };
} = {
  boilOffGrams: { ink: "propellant", texture: "flat", alpha: 0.85 },
  handoverLossGrams: { ink: "propellant", texture: "hatched", alpha: 1 },
  ventedGrams: { ink: "ink-soft", texture: "ruled", alpha: 1 },
  unaccountedGrams: { ink: "status-thin", texture: "flat", alpha: 0.8 },
};

export interface MonthPictureInput {
  readonly months: readonly StatementSums[];
  readonly labelOf: (fromAt: number) => string;
  readonly ink: Ink;
}

/** A month's label gets shorter where there is little room: every second, every third … month bears one. */
const everyOf = (room: number): number => Math.max(1, Math.ceil(58 / room));

export const monthPicture = (
  { months, labelOf, ink }: MonthPictureInput,
  { width, height }: { width: number; height: number },
): Picture => {
  const left = MARGIN.left;
  const right = width - MARGIN.right;
  const [top, bottom] = [MARGIN.top, height - MARGIN.bottom];
  const pieces = months.map(causeStack);
  const highest = Math.max(0, ...pieces.flat().map(({ highKg }) => highKg)) * 1.05 || 1;
  const lowest = Math.min(0, ...pieces.flat().map(({ lowKg }) => lowKg)) * 1.05;
  const y = (kg: number): number => bottom - ((kg - lowest) / (highest - lowest)) * (bottom - top);
  const room = (right - left) / Math.max(1, months.length);
  const barWidth = Math.min(48, room * 0.7);
  const count = Math.max(2, Math.round((bottom - top) / 36));
  const decimals = Math.max(0, -Math.floor(Math.log10(tickStep(lowest, highest, count)) + 1e-9));
  const shapes: Shape[] = [];
  ticks(lowest, highest, count).forEach((kg, place, all) => {
    const figure = formatNumber(kg, decimals);
    shapes.push(line(left, y(kg), right, y(kg), kg === 0 ? "hairline" : "rule"), {
      kind: "text",
      x: left - 8,
      y: y(kg),
      text: place === all.length - 1 ? `${figure}\u202fkg` : figure,
      ink: "ink-soft",
      size: 11,
      anchor: "end",
    });
  });
  const every = everyOf(room);
  months.forEach((month, place) => {
    const middle = left + room * (place + 0.5);
    const [a, b] = [middle - barWidth / 2, middle + barWidth / 2];
    for (const piece of pieces[place] ?? []) {
      const look = looks[piece.cause];
      const colour = look.ink === "propellant" ? ink : look.ink;
      const [low, high] = [y(piece.lowKg), y(piece.highKg)];
      shapes.push(
        {
          kind: "area",
          points: [a, high, b, high, b, low, a, low],
          ink: colour,
          texture: look.texture,
          alpha: look.alpha,
        },
        { kind: "rect", x: a, y: high, width: b - a, height: low - high, fill: null, edge: colour },
      );
    }
    if (place % every === 0) {
      const text = labelOf(month.fromAt);
      shapes.push({ kind: "text", x: middle, y: bottom + 14, text, ink: "ink-soft", size: 11, anchor: "middle" });
    }
  });
  return { width, height, groups: [{ clip: null, shapes: [...shapes, ...keyShapes(months, ink, right, top)] }] };
};

/** The causes that occur, named beside the bars with their texture and sum. */
const keyShapes = (months: readonly StatementSums[], ink: Ink, right: number, top: number): readonly Shape[] =>
  lossCauses
    .map((cause) => ({ cause, kg: months.reduce((sum, month) => sum + month[cause], 0) / 1000 }))
    .filter(({ cause }) => months.some((month) => month[cause] !== 0))
    .flatMap(({ cause, kg }, place): readonly Shape[] => {
      const look = looks[cause];
      const colour = look.ink === "propellant" ? ink : look.ink;
      const x = right + 12;
      const y = top + 8 + place * 34;
      return [
        {
          kind: "area",
          points: [x, y - 5, x + 12, y - 5, x + 12, y + 5, x, y + 5],
          ink: colour,
          texture: look.texture,
          alpha: look.alpha,
        },
        { kind: "rect", x, y: y - 5, width: 12, height: 10, fill: null, edge: colour },
        { kind: "text", x: x + 18, y, text: lossCauseName[cause], ink: "ink", size: 12, anchor: "start" },
        {
          kind: "text",
          x: x + 18,
          y: y + 14,
          text: `${formatNumber(kg, 1)}\u202fkg`,
          ink: "ink-soft",
          size: 11,
          anchor: "start",
        },
      ];
    });
