/** How far each input moves the break-even: a bar an input, from the number with a little less of it to that with a little more. */
import { formatNumber, formatPercent } from "../../format/number.ts";
import { type BreakEven, type Moved, VARIED_SHARE } from "../../ways/break-even.ts";
import { round } from "./axis.ts";
import { type Picture, type Shape, pathShape, textShape } from "./picture.ts";

const ROW = 11;
const HEAD = 24;
/** Room at the left for the names of the inputs, and at both ends of a bar for its numbers, points. */
const NAMES = 150;
const BESIDE = 34;
/** A number far beyond the others is drawn no farther than so many times the break-even, so that the others keep a length. */
const FARTHEST = 3;

const words = (end: Moved["withLess"]): string =>
  end === null ? "none" : end === "not flown" ? "not flown" : formatNumber(end, 1);

/** All of `moved`, in its order. Size in points; the height follows from the number of inputs. */
export const movedPicture = (
  { sorties }: Extract<BreakEven, { kind: "at" }>,
  moved: readonly Moved[],
  width: number,
): Picture => {
  const [left, right] = [NAMES + BESIDE, width - BESIDE];
  const ends = moved.flatMap(({ withLess, withMore }) => [withLess, withMore].filter((end) => typeof end === "number"));
  const least = Math.min(sorties, ...ends);
  const most = Math.min(FARTHEST * sorties, Math.max(sorties * 1.05, ...ends));
  const x = (n: number): number =>
    round(left + ((right - left) * (Math.min(n, most) - least)) / Math.max(1e-9, most - least));
  // Where there is none it lies beyond every number; what is not flown has no bar.
  const place = (end: Moved["withLess"]): number =>
    typeof end === "number" ? x(end) : end === null ? right : x(sorties);
  const bottom = HEAD + moved.length * ROW;
  const share = formatPercent(VARIED_SHARE * 100, 0);
  const rows = moved.flatMap(({ name, withLess, withMore }, i): Shape[] => {
    const y = HEAD + (i + 0.5) * ROW;
    const [less, more] = [place(withLess), place(withMore)];
    const isLessRight = less > more;
    const number = (at: number, text: string, isRight: boolean): Shape =>
      textShape(round(at + (isRight ? 4 : -4)), round(y + 2.5), text, {
        size: 7,
        ink: "quiet",
        anchor: isRight ? "start" : "end",
      });
    return [
      textShape(NAMES, round(y + 2.5), name, { size: 7, ink: "text", anchor: "end" }),
      pathShape(`M${less},${round(y)}H${more}`, { stroke: i === 0 ? "first" : "quiet", width: 4 }),
      number(less, `− ${words(withLess)}`, isLessRight),
      number(more, `+ ${words(withMore)}`, !isLessRight),
    ];
  });
  return {
    width,
    height: bottom + 4,
    shapes: [
      textShape(0, 8, `Break-even with ${share} less (−) and ${share} more (+) of`, {
        size: 7,
        ink: "text",
        isBold: true,
      }),
      textShape(x(sorties), HEAD - 5, formatNumber(sorties, 1), { size: 7, ink: "text", anchor: "middle" }),
      pathShape(`M${x(sorties)},${HEAD - 2}V${bottom}`, { stroke: "quiet", width: 0.75, dash: [2, 2] }),
      ...rows,
    ],
  };
};
