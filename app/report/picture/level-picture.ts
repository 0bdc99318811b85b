/** Levels over time as one picture: a strip for each propellant of a depot, over one axis of time with the sorties marked on it. */
import { formatDate } from "../../format/time.ts";
import { type Plot, type TimeScale, round, timeAxis, timeScale } from "./axis.ts";
import { type LevelShapesInput, levelShapes } from "./level-shapes.ts";
import { type Picture, type Shape, pathShape, textShape } from "./picture.ts";

export interface SortieMark {
  readonly at: number;
  readonly name: string;
  readonly isShort: boolean;
}

/** One strip; its title stands above it (empty: none). */
export interface LevelStrip extends LevelShapesInput {
  readonly title: string;
}

export interface LevelPictureInput {
  readonly width: number;
  /** Of each strip's box. */
  readonly stripHeight: number;
  readonly fromAt: number;
  readonly untilAt: number;
  readonly asOfAt: number;
  readonly strips: readonly LevelStrip[];
  readonly sorties: readonly SortieMark[];
}

const LEFT = 44;
const RIGHT = 62;
const TOP = 12;
const TITLE = 12;
/** Between the box and the dates: the row of sorties. */
const MARKS = 13;
const DATES = 18;
/** A point of the label is about so wide at its size. */
const LETTER = 3.3;

/** Draws it. Levels in kg, sizes in points. */
export const levelPicture = (input: LevelPictureInput): Picture => {
  const right = input.width - RIGHT;
  const head = input.strips.some(({ title }) => title !== "") ? TITLE : 4;
  const plots = input.strips.map((_, place): Plot => {
    const top = TOP + head + place * (input.stripHeight + head);
    return { left: LEFT, top, right, bottom: top + input.stripHeight };
  });
  const first = plots[0] ?? { left: LEFT, top: TOP, right, bottom: TOP };
  const last = plots.at(-1) ?? first;
  const span: Plot = { ...first, bottom: last.bottom };
  const x = timeScale(span, input.fromAt, input.untilAt);
  const marks = input.sorties.filter(({ at }) => at >= input.fromAt && at <= input.untilAt);
  const below = marks.length > 0 ? MARKS : 0;
  return {
    width: input.width,
    height: span.bottom + below + DATES,
    shapes: [
      ...marks.map(({ at, isShort }) =>
        pathShape(`M${round(x(at))},${span.top}V${span.bottom}`, {
          stroke: isShort ? "warning" : "hairline",
          width: isShort ? 0.8 : 0.5,
          dash: isShort ? [2, 1.5] : [],
        }),
      ),
      ...input.strips.flatMap((strip, place) => {
        const plot = plots[place] ?? first;
        return [
          ...levelShapes(strip, plot, x, input.stripHeight < 90 ? 2 : 4),
          ...(strip.title === ""
            ? []
            : [textShape(LEFT, plot.top - 3.5, strip.title, { size: 7.5, ink: strip.ink, isBold: true })]),
        ];
      }),
      ...asOfShapes(input, span, x),
      ...sortieShapes(marks, span, x),
      ...timeAxis(span, x, below),
    ],
  };
};

const asOfShapes = ({ asOfAt, fromAt, untilAt }: LevelPictureInput, span: Plot, x: TimeScale): readonly Shape[] => {
  if (asOfAt < fromAt || asOfAt > untilAt) return [];
  const at = round(x(asOfAt));
  const words = `as of ${formatDate(asOfAt)}`;
  const half = (words.length * LETTER) / 2;
  const middle = Math.min(Math.max(at, span.left + half), span.right - half);
  return [
    pathShape(`M${at},${TOP - 2}V${span.bottom}`, { stroke: "text", width: 0.6, dash: [1, 2] }),
    textShape(round(middle), TOP - 5, words, { size: 7, ink: "text", anchor: "middle" }),
  ];
};

/** A triangle with the name in bold for a short one, a small ring else; names that would touch give way to short ones. */
const sortieShapes = (marks: readonly SortieMark[], span: Plot, x: TimeScale): readonly Shape[] => {
  const taken: { readonly from: number; readonly until: number }[] = [];
  const named = new Set<SortieMark>();
  const byUrgency = marks.toSorted((a, b) => Number(b.isShort) - Number(a.isShort) || a.at - b.at);
  for (const mark of byUrgency) {
    const from = x(mark.at) - 4;
    const until = from + 10 + (mark.name.length + (mark.isShort ? 7 : 0)) * LETTER;
    if (taken.some((other) => from < other.until && until > other.from)) continue;
    taken.push({ from, until });
    named.add(mark);
  }
  const y = span.bottom + 7;
  return marks.flatMap((mark): readonly Shape[] => {
    const at = round(x(mark.at));
    const sign = mark.isShort
      ? pathShape(`M${round(at - 3.2)},${y - 3}h6.4l-3.2,5.6Z`, { fill: "warning" })
      : pathShape(`M${round(at - 1.8)},${y}a1.8,1.8 0 1 0 3.6,0a1.8,1.8 0 1 0 -3.6,0`, {
          fill: "ground",
          stroke: "text",
          width: 0.7,
        });
    if (!named.has(mark)) return [sign];
    const words = mark.isShort ? `${mark.name}, short` : mark.name;
    const look = { size: 7, ink: mark.isShort ? ("warning" as const) : ("text" as const), isBold: mark.isShort };
    // Beyond the right edge there is room for the names of limits: enough for this one, too.
    return [sign, textShape(round(at + 4.5), y + 2.5, words, look)];
  });
};
