/** What robustness costs: one line for so many flights lost, from what is ruled out to the best plan found. */
import { ticks } from "d3-array";
import { line, type Picture, type Shape } from "../../app/picture/shape.ts";
import { formatNumber } from "../format/number.ts";

export interface TradeRow {
  readonly lost: 0 | 1 | 2;
  /** In the measure asked for; null: no plan, or none yet. */
  readonly best: number | null;
  /** Less is impossible; null: nothing holds. */
  readonly lower: number | null;
  readonly isProved: boolean;
  /** What stands in place of figures: not looked for, nothing holds. */
  readonly words: string | null;
}

const ROW = 44;
const HEAD = 14;
const AXIS = 30;
const LEFT = 128;
const RIGHT = 150;

export const tradeHeight = (count: number): number => HEAD + count * ROW + AXIS;

export const lostName = (lost: TradeRow["lost"]): string =>
  lost === 0 ? "nothing lost" : lost === 1 ? "any one lost" : "any two lost";

/** What is ruled out where a best plan is not proved; a fraction of a flight is no flight. */
const openWords = (ruledOut: number, isFlights: boolean): string => {
  if (ruledOut <= 0) return "";
  if (!isFlights) return `; less than ${formatNumber(ruledOut)} ruled out`;
  const least = Math.ceil(ruledOut - 1e-9);
  return least === 1 ? "; 0 is ruled out" : `; fewer than ${formatNumber(least)} ruled out`;
};

export const tradePicture = (
  rows: readonly TradeRow[],
  unit: string,
  isFlights: boolean,
  { width, height }: { readonly width: number; readonly height: number },
): Picture => {
  const right = Math.max(LEFT + 60, width - RIGHT);
  const most = Math.max(1, ...rows.map(({ best, lower }) => Math.max(best ?? 0, lower ?? 0)));
  const x = (value: number): number => LEFT + (value / most) * (right - LEFT);
  const bottom = HEAD + rows.length * ROW;
  const marks = ticks(0, most, Math.min(6, Math.max(2, most))).filter((value) => !isFlights || value % 1 === 0);
  const words = (
    atX: number,
    y: number,
    text: string,
    anchor: "start" | "middle" | "end",
    ink: "ink" | "ink-soft" = "ink-soft",
    size: 11 | 12 = 11,
  ): Shape => ({ kind: "text", x: atX, y, text, ink, size, anchor, halo: "sheet" });
  const shapes: Shape[] = [
    ...marks.flatMap((value) => [
      line(x(value), HEAD, x(value), bottom, "rule"),
      words(x(value), bottom + 12, formatNumber(value), "middle"),
    ]),
    line(LEFT, bottom, right, bottom, "hairline"),
    words(right + 10, bottom + 12, unit, "start"),
  ];
  rows.forEach(({ lost, best, lower, isProved, words: instead }, place) => {
    const y = HEAD + place * ROW + ROW / 2;
    shapes.push(words(LEFT - 12, y, lostName(lost), "end", "ink", 12));
    const ruledOut = Math.max(0, lower ?? 0);
    // What no plan can do: hatched, as a zone that is forbidden.
    if (ruledOut > 0)
      shapes.push({
        kind: "area",
        points: [LEFT, y - 8, x(ruledOut), y - 8, x(ruledOut), y + 8, LEFT, y + 8],
        ink: "hairline",
        texture: "hatched",
        alpha: 1,
      });
    if (best === null) {
      shapes.push(words(Math.max(LEFT, x(ruledOut)) + 10, y, instead ?? "", "start", "ink"));
      return;
    }
    if (best > ruledOut) shapes.push(line(x(ruledOut), y, x(best), y, "accent", 2, [3, 3]));
    const figure = `${formatNumber(best)}${isProved ? ", proved" : openWords(ruledOut, isFlights)}`;
    shapes.push(
      { kind: "dot", x: x(best), y, radius: 5, fill: isProved ? "accent" : "sheet", edge: "accent" },
      words(x(best) + 10, y, figure, "start", "ink", 12),
    );
  });
  return { width, height, groups: [{ clip: null, shapes }] };
};
