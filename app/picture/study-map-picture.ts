/** Maps of an outcome over two inputs, one for each value of a third: shades, and the line where the plan stops holding. */
import type { MapCell } from "../study/slices.ts";
import { valueText } from "../study/shown-figure.ts";
import type { Look, Size } from "./look.ts";
import { reachOf } from "./number-axis.ts";
import { footName, footNotes, headName, ticksBeside, ticksUnder } from "./panel.ts";
import { line, type Picture, type RectShape, type Shape, words } from "./shape.ts";
import { legendRoom, type StudyMapPlace, studyMapPlaces, type StudyMapShown } from "./study-map-axes.ts";
import { blocksOf, boundsOf } from "./study-map-cells.ts";

/** The higher the outcome, the fuller; a low one is bare. */
const MAX_INK = 0.82;
/** Of the line where the plan stops holding, in widths of a curve. */
const HEAVY = 4 / 3;

const shadeOf = (value: number, [least, most]: readonly [number, number]): number =>
  Number.isFinite(value) ? MAX_INK * ((value - least) / (most - least || 1)) : 0;

/** Points that lie anywhere: filled where the plan holds, or where nothing is said of that; open where it does not. */
const scattered = ({ panel, x, y }: StudyMapPlace, look: Look): readonly Shape[] =>
  panel.slice.cells.map((cell): Shape => ({
    kind: "dot",
    x: x.at(cell.x),
    y: y.at(cell.y),
    radius: look.dot,
    fill: cell.holds === false ? "sheet" : "accent",
    edge: cell.holds === false ? "status-short" : "accent",
  }));

const placesOf = (values: readonly number[]): ReadonlyMap<number, number> =>
  new Map(values.map((value, place) => [value, place]));

interface GridShapes {
  readonly cells: readonly Shape[];
  readonly bounds: readonly Shape[];
}

const gridShapes = (
  { panel, x, y }: StudyMapPlace,
  edges: NonNullable<StudyMapPlace["edges"]>,
  reach: readonly [number, number],
  look: Look,
): GridShapes => {
  const { xs, ys, cells } = panel.slice;
  const [columns, rows] = [xs ?? [], ys ?? []];
  const [column, row] = [placesOf(columns), placesOf(rows)];
  const inOrder: (MapCell | undefined)[] = [];
  for (const cell of cells) inOrder[(column.get(cell.x) ?? 0) * rows.length + (row.get(cell.y) ?? 0)] = cell;
  const cellAt = (i: number, j: number): MapCell | undefined => inOrder[i * rows.length + j];
  // On whole pixels: half-covered ones between neighbours would be seen as seams.
  const placed = look.isOnPixels ? Math.round : (place: number) => place;
  const [px, py] = [edges.across.map((value) => placed(x.at(value))), edges.up.map((value) => placed(y.at(value)))];
  const pxAt = (n: number): number => px[n] ?? 0;
  const pyAt = (n: number): number => py[n] ?? 0;
  const shade = (i: number, j: number): number => shadeOf(cellAt(i, j)?.value ?? Number.NaN, reach);
  return {
    cells: blocksOf(columns.length, rows.length, shade).map(({ left, right, bottom, top, shade: alpha }) => ({
      kind: "rect",
      x: pxAt(left),
      y: pyAt(top),
      width: pxAt(right) - pxAt(left),
      height: pyAt(bottom) - pyAt(top),
      fill: "accent",
      edge: null,
      alpha,
    })),
    bounds: boundsOf(columns.length, rows.length, (i, j) => cellAt(i, j)?.holds ?? null).map((corners) => ({
      kind: "path",
      points: corners.flatMap(([i, j]) => [pxAt(i), pyAt(j)]),
      ink: "ink",
      width: HEAVY * look.curve,
    })),
  };
};

const todayDot = (x: number, y: number, look: Look): Shape => ({
  kind: "dot",
  x,
  y,
  radius: 1.3 * look.dot,
  fill: "sheet",
  edge: "ink",
});

/** A dot where both inputs have one value in the plan as it is, a line where one has; nothing outside of the map. */
const todayShapes = (
  { box, x, y }: StudyMapPlace,
  [across, up]: StudyMapShown["today"],
  look: Look,
): readonly Shape[] => {
  const [atX, atY] = [across === null ? null : x.at(across), up === null ? null : y.at(up)];
  const isOut =
    (atX !== null && (atX < box.left || atX > box.right)) || (atY !== null && (atY < box.top || atY > box.bottom));
  if (isOut) return [];
  if (atX !== null && atY !== null) return [todayDot(atX, atY, look)];
  if (atX !== null) return [line(atX, box.top, atX, box.bottom, "ink", look.edge, look.dash)];
  return atY === null ? [] : [line(box.left, atY, box.right, atY, "ink", look.edge, look.dash)];
};

const placeShapes = (
  shown: StudyMapShown,
  place: StudyMapPlace,
  reach: readonly [number, number],
  look: Look,
): readonly Shape[] => {
  const { panel, box, x, y, edges } = place;
  const grid = edges === null ? null : gridShapes(place, edges, reach, look);
  return [
    ...(grid?.cells ?? scattered(place, look)),
    {
      kind: "rect",
      x: box.left,
      y: box.top,
      width: box.right - box.left,
      height: box.bottom - box.top,
      fill: null,
      edge: "hairline",
      edgeWidth: look.edge,
    },
    ...(grid?.bounds ?? []),
    ...ticksUnder(box, x.ticks, look),
    ...ticksBeside(box, y.ticks, look),
    headName(box, panel.title === "" ? y.title : panel.title, look),
    footName(box, x.title, look),
    ...todayShapes(place, shown.today, look),
  ];
};

const LEVELS = 6;

/** Values that the legend shows, falling. */
const levelsOf = ([least, most]: readonly [number, number], unit: string): readonly number[] => {
  const isCount = unit === "" && Number.isInteger(least) && Number.isInteger(most);
  const steps = most === least ? 0 : isCount ? Math.min(LEVELS, most - least) : LEVELS - 1;
  return Array.from({ length: steps + 1 }, (_, n) => {
    const exact = steps === 0 ? most : most - ((most - least) * n) / steps;
    return isCount ? Math.round(exact) : exact;
  });
};

/** Words broken between words into lines of so many letters. */
const lettered = (text: string, letters: number): readonly string[] =>
  text.split(" ").reduce<readonly string[]>((lines, word) => {
    const last = lines.at(-1);
    return last === undefined || last.length + word.length >= letters
      ? [...lines, word]
      : [...lines.slice(0, -1), `${last} ${word}`];
  }, []);

const LETTERS = 19;

/** Shades with their figures, what the heavy line says, and the mark of the plan as it is where one is drawn. */
const legendOf = (
  shown: StudyMapShown,
  places: readonly StudyMapPlace[],
  reach: readonly [number, number],
  left: number,
  look: Look,
): readonly Shape[] => {
  const em = look.text;
  const [said, row] = [left + 2 * em, 1.55 * em];
  const shapes: Shape[] = [];
  let y = look.margin.top + 0.4 * em;
  const lines = (texts: readonly string[]): void => {
    texts.forEach((text, n) => shapes.push(words(said, y + n * 1.3 * em, text, { size: em })));
    y += (texts.length - 1) * 1.3 * em + row;
  };
  const isGrid = places.every(({ edges }) => edges !== null);
  if (isGrid) {
    for (const text of lettered(shown.value.words, LETTERS + 3)) {
      shapes.push(words(left, y, text, { size: em, ink: "ink" }));
      y += 1.3 * em;
    }
    y += 0.3 * em;
    for (const value of levelsOf(reach, shown.value.unit)) {
      const box = { kind: "rect", x: left, y: y - 0.55 * em, width: 1.3 * em, height: 1.1 * em } as const;
      const fill: RectShape = { ...box, fill: "accent", edge: null, alpha: shadeOf(value, reach) };
      if (fill.alpha !== 0) shapes.push(fill);
      shapes.push({ ...box, fill: null, edge: "hairline", edgeWidth: look.edge });
      lines([valueText(value, shown.value.unit, shown.massUnit)]);
    }
    y += 0.4 * em;
  }
  if (shown.holds !== null) {
    const known = new Set(places.flatMap(({ panel }) => panel.slice.cells.map(({ holds }) => holds)));
    const [some, none] = [known.has(true), known.has(false)];
    if (!isGrid) {
      shapes.push({ kind: "dot", x: left + 0.65 * em, y, radius: look.dot, fill: "accent", edge: "accent" });
      lines(lettered(`it holds: ${shown.holds}`, LETTERS));
      shapes.push({ kind: "dot", x: left + 0.65 * em, y, radius: look.dot, fill: "sheet", edge: "status-short" });
      lines(["it does not"]);
    } else if (some && none) {
      shapes.push(line(left, y, left + 1.3 * em, y, "ink", HEAVY * look.curve));
      lines(lettered(`up to here it holds: ${shown.holds}`, LETTERS));
    } else if (some || none) lines(lettered(`holds ${some ? "everywhere" : "nowhere"} here: ${shown.holds}`, LETTERS));
    y += 0.4 * em;
  }
  const today = places.flatMap((place) => todayShapes(place, shown.today, look))[0];
  if (today !== undefined) {
    shapes.push(
      today.kind === "dot"
        ? todayDot(left + 0.65 * em, y, look)
        : line(left, y, left + 1.3 * em, y, "ink", look.edge, look.dash),
    );
    lines(["the plan as it is"]);
  }
  return shapes;
};

export const studyMapPicture = (shown: StudyMapShown, size: Size, look: Look): Picture => {
  const places = studyMapPlaces(shown, size, look);
  const values = places.flatMap(({ panel }) => panel.slice.cells.map(({ value }) => value)).filter(Number.isFinite);
  const reach = reachOf(values) ?? [0, 1];
  const last = places.at(-1);
  const shapes = [
    ...places.flatMap((place) => placeShapes(shown, place, reach, look)),
    ...legendOf(shown, places, reach, size.width - legendRoom(look) + 1.1 * look.text, look),
    ...(last === undefined ? [] : footNotes(last.box, shown.notes, look)),
  ];
  return { ...size, groups: [{ clip: null, shapes }] };
};
