/** Levels over time on paper: a strip for each propellant of a depot, over one axis of time with the sorties marked on it. */
import { formatDate } from "../../format/time.ts";
import type { MassUnit } from "../../format/mass.ts";
import { propellantInk } from "../ink.ts";
import type { Plot } from "../panel.ts";
import { type Box, flatArea, type Group, line, type Measure, type Picture, type Shape, wordsOn } from "../shape.ts";
import { type TimeScale, timeScale } from "../time-scale.ts";
import { timeAxis } from "../time-axis.ts";
import { levelBand } from "./level-band.ts";
import { levelCompared, levelForecast, levelPast } from "./level-curves.ts";
import { levelAxis, levelFigures, levelGround } from "./level-ground.ts";
import { paperLevel } from "./level-look.ts";
import { levelNames } from "./level-names.ts";
import type { LevelSource } from "./level-source.ts";

export interface SortieMark {
  readonly at: number;
  readonly name: string;
  readonly isShort: boolean;
}

export interface LevelStrip {
  readonly source: LevelSource;
  /** Above the strip; empty: none. */
  readonly title: string;
  /** At the end of the curve; empty: it stands elsewhere. */
  readonly name: string;
}

export interface LevelPictureInput {
  readonly width: number;
  /** Of each strip's box. */
  readonly stripHeight: number;
  readonly fromAt: number;
  readonly untilAt: number;
  readonly asOfAt: number;
  readonly massUnit: MassUnit;
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
/** A letter is about so wide in sizes of its type: paper is composed where nothing can be measured. */
const LETTER = 0.47;
const measure: Measure = (text, size) => text.length * size * LETTER;

/** Draws it. Levels in kg, sizes in points. */
export const levelPicture = (input: LevelPictureInput): Picture => {
  const right = input.width - RIGHT;
  const head = input.strips.some(({ title }) => title !== "") ? TITLE : 4;
  const boxes = input.strips.map((_, place): Box => ({
    x: LEFT,
    y: TOP + head + place * (input.stripHeight + head),
    width: right - LEFT,
    height: input.stripHeight,
  }));
  const top = boxes[0]?.y ?? TOP;
  const bottom = top + Math.max(0, boxes.length * (input.stripHeight + head) - head);
  const span: Plot = { left: LEFT, top, right, bottom };
  const scale = timeScale(input.fromAt, input.untilAt, LEFT, right);
  const marks = input.sorties.filter(({ at }) => at >= input.fromAt && at <= input.untilAt);
  const below = marks.length > 0 ? MARKS : 0;
  return {
    width: input.width,
    height: bottom + below + DATES,
    groups: [
      { clip: null, shapes: marks.map(({ at, isShort }) => sortieLine(scale.x(at), span, isShort)) },
      ...input.strips.flatMap((strip, place) => stripGroups(strip, boxes[place], scale, input)),
      {
        clip: null,
        shapes: [
          ...asOfShapes(input, span, scale),
          ...sortieShapes(marks, span, scale),
          ...timeAxis(span, scale, below),
        ],
      },
    ],
  };
};

const sortieLine = (x: number, { top, bottom }: Plot, isShort: boolean): Shape =>
  isShort ? line(x, top, x, bottom, "status-short", 0.8, [2, 1.5]) : line(x, top, x, bottom, "hairline", 0.5);

const stripGroups = (
  { source, title, name }: LevelStrip,
  box: Box | undefined,
  scale: TimeScale,
  { massUnit }: LevelPictureInput,
): readonly Group[] => {
  if (box === undefined) return [];
  const axis = levelAxis(source, box, massUnit);
  const ends = { at: scale.untilAt, unit: null, curve: name === "" ? null : name, compared: null };
  const room = {
    right: box.x + box.width,
    top: box.y - 2,
    bottom: box.y + box.height + 3,
    width: RIGHT - paperLevel.nameGap,
  };
  return [
    {
      clip: box,
      shapes: [
        ...levelGround(source, box, axis, paperLevel),
        ...levelBand(source, axis, scale, paperLevel),
        ...levelCompared(source, axis, scale, paperLevel),
        ...levelPast(source, box, axis, scale, paperLevel),
        ...levelForecast(source, box, axis, scale, paperLevel),
      ],
    },
    {
      clip: null,
      shapes: [
        ...levelFigures(axis.ticks, axis.unit, box, paperLevel),
        ...levelNames(source, axis, ends, room, measure, paperLevel),
        ...(title === ""
          ? []
          : [
              wordsOn(LEFT, box.y - 3.5, title, {
                size: 7.5,
                ink: propellantInk(source.propellant.position),
                isBold: true,
              }),
            ]),
      ],
    },
  ];
};

const asOfShapes = ({ asOfAt, fromAt, untilAt }: LevelPictureInput, span: Plot, scale: TimeScale): readonly Shape[] => {
  if (asOfAt < fromAt || asOfAt > untilAt) return [];
  const at = scale.x(asOfAt);
  const words = `as of ${formatDate(asOfAt)}`;
  const half = measure(words, 7) / 2;
  const middle = Math.min(Math.max(at, span.left + half), span.right - half);
  return [
    line(at, TOP - 2, at, span.bottom, "ink", 0.6, [1, 2]),
    wordsOn(middle, TOP - 5, words, { size: 7, ink: "ink", anchor: "middle" }),
  ];
};

/** A triangle with the name in bold for a short one, a small ring else; names that would touch give way to short ones. */
const sortieShapes = (marks: readonly SortieMark[], span: Plot, scale: TimeScale): readonly Shape[] => {
  const taken: { readonly from: number; readonly until: number }[] = [];
  const named = new Set<SortieMark>();
  const wordsOf = ({ name, isShort }: SortieMark): string => (isShort ? `${name}, short` : name);
  const byUrgency = marks.toSorted((a, b) => Number(b.isShort) - Number(a.isShort) || a.at - b.at);
  for (const mark of byUrgency) {
    const from = scale.x(mark.at) - 4;
    const until = from + 10 + measure(wordsOf(mark), 7);
    if (taken.some((other) => from < other.until && until > other.from)) continue;
    taken.push({ from, until });
    named.add(mark);
  }
  const y = span.bottom + 7;
  return marks.flatMap((mark): readonly Shape[] => {
    const at = scale.x(mark.at);
    const sign: Shape = mark.isShort
      ? flatArea([at - 3.2, y - 3, at + 3.2, y - 3, at, y + 2.6], "status-short")
      : { kind: "dot", x: at, y, radius: 1.8, fill: "sheet", edge: "ink", edgeWidth: 0.7 };
    if (!named.has(mark)) return [sign];
    const look = { size: 7, ink: mark.isShort ? "status-short" : "ink", isBold: mark.isShort } as const;
    // Beyond the right edge there is room for the names of limits: enough for this one, too.
    return [sign, wordsOn(at + 4.5, y + 2.5, wordsOf(mark), look)];
  });
};
