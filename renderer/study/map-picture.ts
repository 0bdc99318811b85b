/** Maps of an outcome over two inputs, one for each value of a third: shades, and the line where the plan stops holding. */
import type { MapSlice } from "../../app/study/slices.ts";
import { line, type Picture, type Shape } from "../../app/picture/shape.ts";
import type { MassUnit } from "../format/mass.ts";
import { type Axis, type AxisWords, makeAxis } from "../../app/picture/number-axis.ts";
import { valueText } from "../../app/study/shown-figure.ts";

export interface MapPanel {
  /** "Reserve in Tarn oxygen 2 t"; "": there is one map only. */
  readonly title: string;
  readonly slice: MapSlice;
}

export interface MapInput {
  readonly across: AxisWords;
  readonly up: AxisWords;
  readonly value: AxisWords;
  readonly panels: readonly MapPanel[];
  /** The plan as it is; null: nowhere in one place. */
  readonly today: readonly [number | null, number | null];
  /** What the line means: "every sortie is supplied"; null: there is none. */
  readonly holds: string | null;
  /** Row of the point that is looked at; null: none. */
  readonly chosen: number | null;
  readonly unit: MassUnit;
}

interface Size {
  readonly width: number;
  readonly height: number;
}

const LEGEND = 150;
const HEAD = 24;
const FOOT = 44;
const LEFT = 60;
const GAP = 20;
const ONE = 320;
const SMALL = 190;
const LEAST_WIDTH = 230;

interface Panel {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** Few are drawn large, many small, as many beside each other as there is room for. */
const columnsIn = (count: number, width: number): number =>
  Math.max(1, Math.min(count, Math.floor((width - LEGEND) / LEAST_WIDTH)));

const boxesOf = (count: number, width: number): readonly Panel[] => {
  const columns = columnsIn(count, width);
  const inner = count === 1 ? ONE : SMALL;
  const each = (width - LEGEND) / columns;
  return Array.from({ length: count }, (_, n) => {
    const left = (n % columns) * each + LEFT;
    const top = Math.floor(n / columns) * (HEAD + inner + FOOT) + HEAD;
    return { left, top, right: left + each - LEFT - GAP, bottom: top + inner };
  });
};

export const mapHeight = (count: number, width: number): number =>
  Math.ceil(count / columnsIn(count, width)) * (HEAD + (count === 1 ? ONE : SMALL) + FOOT);

/** Edges of the cells: half-way between neighbours, and as far beyond the outermost. */
const edgesOf = (values: readonly number[]): readonly number[] => {
  const [first = 0] = values;
  const last = values.at(-1) ?? first;
  const between = values.slice(1).map((value, n) => (value + (values[n] ?? 0)) / 2);
  const before = first - ((between[0] ?? first + 0.5) - first);
  return [before, ...between, last + (last - (between.at(-1) ?? last - 0.5))];
};

const rangeOf = (values: readonly number[]): readonly [number, number] => {
  const [least, most] = values.reduce(
    ([a, b], value) => [Math.min(a, value), Math.max(b, value)],
    [Infinity, -Infinity],
  );
  return least < most ? [least, most] : least === most ? [least - 0.5, most + 0.5] : [0, 1];
};

interface PanelAxes {
  readonly x: Axis;
  readonly y: Axis;
  readonly xEdges: readonly number[] | null;
  readonly yEdges: readonly number[] | null;
}

const axesOf = ({ across, up, unit }: MapInput, { slice }: MapPanel, box: Panel): PanelAxes => {
  const xEdges = slice.xs === null ? null : edgesOf(slice.xs);
  const yEdges = slice.ys === null ? null : edgesOf(slice.ys);
  return {
    x: makeAxis(across, rangeOf(xEdges ?? slice.cells.map(({ x }) => x)), [box.left, box.right], unit, 70),
    y: makeAxis(up, rangeOf(yEdges ?? slice.cells.map(({ y }) => y)), [box.bottom, box.top], unit, 44),
    xEdges,
    yEdges,
  };
};

const words = (x: number, y: number, text: string, anchor: "start" | "middle" | "end", isStrong = false): Shape => ({
  kind: "text",
  x,
  y,
  text,
  ink: isStrong ? "ink" : "ink-soft",
  size: 11,
  anchor,
  halo: "sheet",
});

/** The higher the outcome, the fuller; a low one is bare. */
const MAX_INK = 0.82;

const shadeOf = (value: number, [least, most]: readonly [number, number]): number =>
  Number.isFinite(value) ? MAX_INK * ((value - least) / (most - least || 1)) : 0;

/** The row of the point that was pointed at; null: none lies there. */
export const mapRowAt = (input: MapInput, { width }: Size, atX: number, atY: number): number | null => {
  const boxes = boxesOf(input.panels.length, width);
  const place = boxes.findIndex(
    ({ left, right, top, bottom }) => atX >= left && atX <= right && atY >= top && atY <= bottom,
  );
  const [box, panel] = [boxes[place], input.panels[place]];
  if (box === undefined || panel === undefined) return null;
  const { x, y } = axesOf(input, panel, box);
  let best: number | null = null;
  let least = Infinity;
  for (const cell of panel.slice.cells) {
    const distance = Math.hypot(x.at(cell.x) - atX, y.at(cell.y) - atY);
    if (distance >= least) continue;
    least = distance;
    best = cell.row;
  }
  return best;
};

/** Sides between a point that holds and a neighbour that does not. */
const boundsOf = ({ slice }: MapPanel, { x, y, xEdges, yEdges }: PanelAxes): readonly Shape[] => {
  const { xs, ys, cells } = slice;
  if (xs === null || ys === null || xEdges === null || yEdges === null) return [];
  const [places, rows] = [new Map(xs.map((value, n) => [value, n])), new Map(ys.map((value, n) => [value, n]))];
  const holds = new Map(cells.map((cell) => [`${places.get(cell.x) ?? -1} ${rows.get(cell.y) ?? -1}`, cell.holds]));
  const at = (i: number, j: number): boolean | null => holds.get(`${i} ${j}`) ?? null;
  const [px, py] = [(n: number) => x.at(xEdges[n] ?? 0), (n: number) => y.at(yEdges[n] ?? 0)];
  const differ = (a: boolean | null, b: boolean | null): boolean => a !== null && b !== null && a !== b;
  return xs.flatMap((_, i) =>
    ys.flatMap((__, j) => [
      ...(i > 0 && differ(at(i - 1, j), at(i, j)) ? [line(px(i), py(j), px(i), py(j + 1), "ink", 2)] : []),
      ...(j > 0 && differ(at(i, j - 1), at(i, j)) ? [line(px(i), py(j), px(i + 1), py(j), "ink", 2)] : []),
    ]),
  );
};

const cellsOf = (panel: MapPanel, axes: PanelAxes, reach: readonly [number, number]): readonly Shape[] => {
  const { x, y, xEdges, yEdges } = axes;
  const { xs, ys, cells } = panel.slice;
  if (xs === null || ys === null || xEdges === null || yEdges === null)
    return cells.map((cell): Shape => ({
      kind: "dot",
      x: x.at(cell.x),
      y: y.at(cell.y),
      radius: 3,
      fill: cell.holds === false ? "sheet" : "accent",
      edge: cell.holds === false ? "status-short" : "accent",
    }));
  const [places, rows] = [new Map(xs.map((value, n) => [value, n])), new Map(ys.map((value, n) => [value, n]))];
  return cells.flatMap((cell): readonly Shape[] => {
    const [i, j] = [places.get(cell.x), rows.get(cell.y)];
    const alpha = shadeOf(cell.value, reach);
    if (i === undefined || j === undefined || alpha <= 0) return [];
    // On whole pixels: half-covered ones between neighbours would be seen as seams.
    const [left, right] = [x.at(xEdges[i] ?? 0), x.at(xEdges[i + 1] ?? 0)].map(Math.round) as [number, number];
    const [bottom, top] = [y.at(yEdges[j] ?? 0), y.at(yEdges[j + 1] ?? 0)].map(Math.round) as [number, number];
    return [
      { kind: "rect", x: left, y: top, width: right - left, height: bottom - top, fill: "accent", edge: null, alpha },
    ];
  });
};

const panelShapes = (
  input: MapInput,
  panel: MapPanel,
  box: Panel,
  reach: readonly [number, number],
): readonly Shape[] => {
  const axes = axesOf(input, panel, box);
  const { x, y } = axes;
  const [todayX, todayY] = input.today;
  const marks: Shape[] = [];
  if (todayX !== null && todayY !== null) {
    const [atX, atY] = [x.at(todayX), y.at(todayY)];
    if (atX >= box.left && atX <= box.right && atY >= box.top && atY <= box.bottom)
      marks.push(
        { kind: "dot", x: atX, y: atY, radius: 4, fill: "sheet", edge: "ink" },
        words(atX, atY - 12, "today", "middle", true),
      );
  } else if (todayX !== null && x.at(todayX) >= box.left && x.at(todayX) <= box.right)
    marks.push(
      line(x.at(todayX), box.top, x.at(todayX), box.bottom, "ink", 1, [4, 3]),
      words(x.at(todayX), box.top - 8, "today", "middle", true),
    );
  else if (todayY !== null && y.at(todayY) >= box.top && y.at(todayY) <= box.bottom)
    marks.push(
      line(box.left, y.at(todayY), box.right, y.at(todayY), "ink", 1, [4, 3]),
      words(box.right - 4, y.at(todayY) - 8, "today", "end", true),
    );
  const chosen = panel.slice.cells.find(({ row }) => row === input.chosen);
  if (chosen !== undefined)
    marks.push({ kind: "dot", x: x.at(chosen.x), y: y.at(chosen.y), radius: 5, fill: "raised", edge: "ink" });
  return [
    ...cellsOf(panel, axes, reach),
    {
      kind: "rect",
      x: box.left,
      y: box.top,
      width: box.right - box.left,
      height: box.bottom - box.top,
      fill: null,
      edge: "hairline",
    },
    ...boundsOf(panel, axes),
    ...x.ticks.flatMap((tick) => [
      line(tick.at, box.bottom, tick.at, box.bottom + 4, "hairline"),
      words(tick.at, box.bottom + 12, tick.label, "middle"),
    ]),
    ...y.ticks.flatMap((tick) => [
      line(box.left - 4, tick.at, box.left, tick.at, "hairline"),
      words(box.left - 8, tick.at, tick.label, "end"),
    ]),
    words(box.left, box.top - 11, panel.title === "" ? y.title : panel.title, "start", true),
    words(box.right, box.bottom + 29, x.title, "end", true),
    ...marks,
  ];
};

const LEVELS = 6;

const legendOf = (input: MapInput, reach: readonly [number, number], left: number): readonly Shape[] => {
  const isGrid = input.panels.every(({ slice }) => slice.xs !== null && slice.ys !== null);
  const lines: Shape[] = [];
  let y = HEAD + 4;
  if (isGrid) {
    lines.push(words(left, y, input.value.words, "start", true));
    const [least, most] = reach;
    const isCount = input.value.unit === "" && Number.isInteger(least) && Number.isInteger(most);
    const steps = isCount ? Math.min(LEVELS, most - least) : LEVELS - 1;
    for (let n = steps; n >= 0; n -= 1) {
      const exact = steps === 0 ? most : least + ((most - least) * n) / steps;
      const value = isCount ? Math.round(exact) : exact;
      y += 17;
      lines.push(
        {
          kind: "rect",
          x: left,
          y: y - 6,
          width: 14,
          height: 12,
          fill: "accent",
          edge: null,
          alpha: Math.max(0.001, shadeOf(value, reach)),
        },
        { kind: "rect", x: left, y: y - 6, width: 14, height: 12, fill: null, edge: "hairline" },
        words(left + 22, y, valueText(value, input.value.unit, input.unit), "start"),
      );
    }
    y += 22;
  }
  if (input.holds === null) return lines;
  if (isGrid) lines.push(line(left, y, left + 14, y, "ink", 2), words(left + 22, y, "up to here it holds:", "start"));
  else {
    lines.push(
      { kind: "dot", x: left + 7, y, radius: 3, fill: "accent", edge: "accent" },
      words(left + 22, y, "it holds:", "start"),
      { kind: "dot", x: left + 7, y: y + 34, radius: 3, fill: "sheet", edge: "status-short" },
      words(left + 22, y + 34, "it does not", "start"),
    );
  }
  const [first = "", ...rest] = input.holds.split(/(?<=sortie|planned) /);
  lines.push(words(left + 22, y + 14, first, "start"));
  if (rest.length > 0 && isGrid) lines.push(words(left + 22, y + 28, rest.join(" "), "start"));
  return lines;
};

export const mapPicture = (input: MapInput, { width, height }: Size): Picture => {
  const boxes = boxesOf(input.panels.length, width);
  const values = input.panels.flatMap(({ slice }) =>
    slice.cells.flatMap(({ value }) => (Number.isFinite(value) ? [value] : [])),
  );
  const reach: readonly [number, number] = values.reduce<readonly [number, number]>(
    ([a, b], value) => [Math.min(a, value), Math.max(b, value)],
    [Infinity, -Infinity],
  );
  const known: readonly [number, number] = reach[0] <= reach[1] ? reach : [0, 1];
  const shapes = input.panels.flatMap((panel, n) => {
    const box = boxes[n];
    return box === undefined || panel.slice.cells.length === 0 ? [] : panelShapes(input, panel, box, known);
  });
  return {
    width,
    height,
    groups: [{ clip: null, shapes: [...shapes, ...legendOf(input, known, width - LEGEND + 12)] }],
  };
};
