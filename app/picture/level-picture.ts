/** Levels over time as one picture: a strip for each propellant of a depot, over one axis of time with the sorties marked on it. */
import { formatDate } from "../format/time.ts";
import { timeAxis } from "./axis.ts";
import type { Plot } from "./panel.ts";
import { type LevelShapesInput, levelShapes } from "./level-shapes.ts";
import { flatArea, line, type Picture, type Shape, wordsOn } from "./shape.ts";
import { type TimeScale, timeScale } from "./time-scale.ts";

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
  const x = timeScale(input.fromAt, input.untilAt, span.left, span.right);
  const marks = input.sorties.filter(({ at }) => at >= input.fromAt && at <= input.untilAt);
  const below = marks.length > 0 ? MARKS : 0;
  return {
    width: input.width,
    height: span.bottom + below + DATES,
    groups: [
      {
        clip: null,
        shapes: [
          ...marks.map(({ at, isShort }) =>
            line(
              x.x(at),
              span.top,
              x.x(at),
              span.bottom,
              isShort ? "status-short" : "hairline",
              isShort ? 0.8 : 0.5,
              isShort ? [2, 1.5] : undefined,
            ),
          ),
          ...input.strips.flatMap((strip, place) => {
            const plot = plots[place] ?? first;
            return [
              ...levelShapes(strip, plot, x, input.stripHeight < 90 ? 2 : 4),
              ...(strip.title === ""
                ? []
                : [wordsOn(LEFT, plot.top - 3.5, strip.title, { size: 7.5, ink: strip.ink, isBold: true })]),
            ];
          }),
          ...asOfShapes(input, span, x),
          ...sortieShapes(marks, span, x),
          ...timeAxis(span, x, below),
        ],
      },
    ],
  };
};

const asOfShapes = ({ asOfAt, fromAt, untilAt }: LevelPictureInput, span: Plot, x: TimeScale): readonly Shape[] => {
  if (asOfAt < fromAt || asOfAt > untilAt) return [];
  const at = x.x(asOfAt);
  const words = `as of ${formatDate(asOfAt)}`;
  const half = (words.length * LETTER) / 2;
  const middle = Math.min(Math.max(at, span.left + half), span.right - half);
  return [
    line(at, TOP - 2, at, span.bottom, "ink", 0.6, [1, 2]),
    wordsOn(middle, TOP - 5, words, { size: 7, ink: "ink", anchor: "middle" }),
  ];
};

/** A triangle with the name in bold for a short one, a small ring else; names that would touch give way to short ones. */
const sortieShapes = (marks: readonly SortieMark[], span: Plot, x: TimeScale): readonly Shape[] => {
  const taken: { readonly from: number; readonly until: number }[] = [];
  const named = new Set<SortieMark>();
  const byUrgency = marks.toSorted((a, b) => Number(b.isShort) - Number(a.isShort) || a.at - b.at);
  for (const mark of byUrgency) {
    const from = x.x(mark.at) - 4;
    const until = from + 10 + (mark.name.length + (mark.isShort ? 7 : 0)) * LETTER;
    if (taken.some((other) => from < other.until && until > other.from)) continue;
    taken.push({ from, until });
    named.add(mark);
  }
  const y = span.bottom + 7;
  return marks.flatMap((mark): readonly Shape[] => {
    const at = x.x(mark.at);
    const sign: Shape = mark.isShort
      ? flatArea([at - 3.2, y - 3, at + 3.2, y - 3, at, y + 2.6], "status-short")
      : { kind: "dot", x: at, y, radius: 1.8, fill: "sheet", edge: "ink", edgeWidth: 0.7 };
    if (!named.has(mark)) return [sign];
    const said = mark.isShort ? `${mark.name}, short` : mark.name;
    const look = { size: 7, ink: mark.isShort ? "status-short" : "ink", isBold: mark.isShort } as const;
    // Beyond the right edge there is room for the names of limits: enough for this one, too.
    return [sign, wordsOn(at + 4.5, y + 2.5, said, look)];
  });
};
