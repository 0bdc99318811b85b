/** How far each input moves the break-even: a bar an input, from the number with a little less of it to that with a little more. */
import { formatNumber, formatPercent } from "../format/number.ts";
import { type BreakEven, type Moved, VARIED_SHARE } from "../ways/break-even.ts";
import type { Look } from "./look.ts";
import { line, type Picture, type Shape, words } from "./shape.ts";

type Found = Extract<BreakEven, { kind: "at" }>;

/** A number far beyond the others is drawn no farther than so many times the break-even, so that the others keep a length. */
const FARTHEST = 3;

/** All in sizes of the text: a row, the words above the rows, the names at the left, the numbers beside a bar. */
const ROW = 1.6;
const HEAD = 3.4;
const NAMES = 21;
const BESIDE = 4.9;

const said = (end: Moved["withLess"]): string =>
  end === null ? "none" : end === "not flown" ? "not flown" : formatNumber(end, 1);

/** So high are rows for so many inputs with the words above them. */
export const movedHeight = (inputs: number, look: Look): number => (HEAD + inputs * ROW + 0.5) * look.text;

/** All of `moved`, in its order, from `top` on; as wide as `right` less `left`. */
export const movedShapes = (
  { sorties }: Found,
  moved: readonly Moved[],
  { left, right, top }: { readonly left: number; readonly right: number; readonly top: number },
  look: Look,
): readonly Shape[] => {
  const em = look.text;
  const names = left + NAMES * em;
  const [from, until] = [names + BESIDE * em, right - BESIDE * em];
  const ends = moved.flatMap(({ withLess, withMore }) => [withLess, withMore].filter((end) => typeof end === "number"));
  const least = Math.min(sorties, ...ends);
  const most = Math.min(FARTHEST * sorties, Math.max(sorties * 1.05, ...ends));
  const x = (n: number): number => from + ((until - from) * (Math.min(n, most) - least)) / Math.max(1e-9, most - least);
  // Where there is none it lies beyond every number; what is not flown has no bar.
  const placed = (end: Moved["withLess"]): number =>
    typeof end === "number" ? x(end) : end === null ? until : x(sorties);
  const first = top + HEAD * em;
  const share = formatPercent(VARIED_SHARE * 100, 0);
  const rows = moved.flatMap(({ name, withLess, withMore }, i): readonly Shape[] => {
    const y = first + (i + 0.5) * ROW * em;
    const [less, more] = [placed(withLess), placed(withMore)];
    const number = (at: number, text: string, isRight: boolean): Shape =>
      words(at + (isRight ? 0.55 * em : -0.55 * em), y, text, {
        size: em,
        anchor: isRight ? "start" : "end",
        halo: "sheet",
      });
    return [
      words(names - 0.7 * em, y, name, { size: em, ink: "ink", anchor: "end" }),
      line(less, y, more, y, i === 0 ? "accent" : "ink-soft", 0.55 * em),
      number(less, `− ${said(withLess)}`, less > more),
      number(more, `+ ${said(withMore)}`, less <= more),
    ];
  });
  return [
    words(left, top + 0.9 * em, `Break-even with ${share} less (−) and ${share} more (+) of`, {
      size: look.name,
      ink: "ink",
      isBold: true,
    }),
    words(x(sorties), first - em, formatNumber(sorties, 1), { size: em, ink: "ink", anchor: "middle" }),
    line(x(sorties), first - 0.3 * em, x(sorties), first + moved.length * ROW * em, "ink-soft", look.edge, look.dash),
    ...rows,
  ];
};

/** The same as a picture of its own; its height follows from the number of inputs. */
export const movedPicture = (found: Found, moved: readonly Moved[], width: number, look: Look): Picture => ({
  width,
  height: movedHeight(moved.length, look),
  groups: [{ clip: null, shapes: movedShapes(found, moved, { left: 0, right: width, top: 0 }, look) }],
});
