/** A chart made to stand by itself on paper: a margin, its title, and the words without which it could not be read. */
import { moved } from "./moved.ts";
import type { Group, Measure, Picture, Shape, TextSize } from "./shape.ts";

export interface Caption {
  readonly title: string;
  /** Short parts (programme, plan case, as-of date, units), set one after the other. */
  readonly parts: readonly string[];
}

const MARGIN = 20;
const TITLE: TextSize = 15;
const WORDS: TextSize = 12;
const TITLE_ROW = 22;
const ROW = 17;
/** Between the words and the chart. */
const GAP = 10;
const BETWEEN = " · ";

/** Parts joined into lines no wider than there is room; a part alone in its line may be wider. */
const linesOf = (parts: readonly string[], between: string, fits: (text: string) => boolean): readonly string[] => {
  const lines: string[] = [];
  for (const part of parts) {
    const last = lines.at(-1);
    const joined = last === undefined ? part : `${last}${between}${part}`;
    if (last !== undefined && fits(joined)) lines[lines.length - 1] = joined;
    else lines.push(part);
  }
  return lines;
};

/** The picture below its caption. The title is broken between words where it is wider than the chart. */
export const captioned = (picture: Picture, { title, parts }: Caption, measure: Measure): Picture => {
  const titles = linesOf(title.split(" "), " ", (text) => measure(text, TITLE, true) <= picture.width);
  const lines = linesOf(parts, BETWEEN, (text) => measure(text, WORDS) <= picture.width);
  const top = MARGIN + titles.length * TITLE_ROW;
  const head: readonly Shape[] = [
    ...titles.map((text, row): Shape => ({
      kind: "text",
      x: MARGIN,
      y: MARGIN + row * TITLE_ROW + TITLE_ROW / 2,
      text,
      ink: "ink",
      size: TITLE,
      anchor: "start",
      isBold: true,
    })),
    ...lines.map((text, row): Shape => ({
      kind: "text",
      x: MARGIN,
      y: top + row * ROW + ROW / 2,
      text,
      ink: "ink-soft",
      size: WORDS,
      anchor: "start",
    })),
  ];
  const chartTop = top + lines.length * ROW + GAP;
  const groups: readonly Group[] = [{ clip: null, shapes: head }, ...moved(picture.groups, MARGIN, chartTop)];
  return { width: picture.width + 2 * MARGIN, height: chartTop + picture.height + MARGIN, groups };
};
