/** Where the maps of a study lie in their picture, and where the values of their inputs lie in each. */
import type { MassUnit } from "../format/mass.ts";
import type { MapSlice } from "../study/slices.ts";
import type { Look, Size } from "./look.ts";
import { type Axis, type AxisWords, makeAxis, reachOf } from "./number-axis.ts";
import type { Plot } from "./panel.ts";

export interface StudyMapPanel {
  /** "Reserve in Tarn oxygen 2 t"; "": there is one map only. */
  readonly title: string;
  readonly slice: MapSlice;
}

export interface StudyMapShown {
  readonly across: AxisWords;
  readonly up: AxisWords;
  readonly value: AxisWords;
  readonly panels: readonly StudyMapPanel[];
  /** The plan as it is; null: nowhere in one place. */
  readonly today: readonly [number | null, number | null];
  /** What the heavy line means: "every sortie is supplied"; null: there is none. */
  readonly holds: string | null;
  readonly massUnit: MassUnit;
  /** What stands under the picture, a line each; on screen it stands beside it. */
  readonly notes: readonly string[];
}

/** In sizes of the type. */
const [LEGEND, GAP, ONE, SMALL, LEAST_WIDTH] = [13.6, 1.8, 29, 17.3, 21] as const;

/** Room for the legend at the right. */
export const legendRoom = ({ text }: Look): number => LEGEND * text;

const innerHeight = (count: number, { text }: Look): number => (count === 1 ? ONE : SMALL) * text;

/** Few are drawn large, many small, as many beside each other as there is room for. */
const columnsIn = (count: number, width: number, look: Look): number =>
  Math.max(1, Math.min(count, Math.floor((width - legendRoom(look)) / (LEAST_WIDTH * look.text))));

const eachHeight = (count: number, look: Look): number => look.margin.top + innerHeight(count, look) + look.margin.foot;

/** How high the picture of so many maps is, without notes. */
export const studyMapHeight = (count: number, width: number, look: Look): number =>
  Math.ceil(count / columnsIn(count, width, look)) * eachHeight(count, look);

const boxesOf = (count: number, width: number, look: Look): readonly Plot[] => {
  const columns = columnsIn(count, width, look);
  const each = (width - legendRoom(look)) / columns;
  return Array.from({ length: count }, (_, n) => {
    const from = (n % columns) * each;
    const top = Math.floor(n / columns) * eachHeight(count, look) + look.margin.top;
    return {
      left: from + look.margin.left,
      top,
      right: from + each - GAP * look.text,
      bottom: top + innerHeight(count, look),
    };
  });
};

/** Edges of the cells: half-way between neighbours, and as far beyond the outermost. */
const edgesOf = (values: readonly number[]): readonly number[] => {
  const [first = 0] = values;
  const last = values.at(-1) ?? first;
  const between = values.slice(1).map((value, n) => (value + (values[n] ?? 0)) / 2);
  const before = first - ((between[0] ?? first + 0.5) - first);
  return [before, ...between, last + (last - (between.at(-1) ?? last - 0.5))];
};

const rangeOf = (values: readonly number[]): readonly [number, number] => {
  const [least, most] = reachOf(values) ?? [0, 1];
  return least < most ? [least, most] : [least - 0.5, most + 0.5];
};

export interface StudyMapPlace {
  readonly panel: StudyMapPanel;
  readonly box: Plot;
  readonly x: Axis;
  readonly y: Axis;
  /** Of the cells; null: the points lie anywhere. */
  readonly edges: { readonly across: readonly number[]; readonly up: readonly number[] } | null;
}

/** Every map that has a point, in its place: for what is laid over the picture, and for what was pointed at. */
export const studyMapPlaces = (
  { across, up, panels, massUnit }: StudyMapShown,
  { width }: Pick<Size, "width">,
  look: Look,
): readonly StudyMapPlace[] => {
  const boxes = boxesOf(panels.length, width, look);
  return panels.flatMap((panel, n): readonly StudyMapPlace[] => {
    const [box, { xs, ys, cells }] = [boxes[n], panel.slice];
    if (box === undefined || cells.length === 0) return [];
    const edges = xs === null || ys === null ? null : { across: edgesOf(xs), up: edgesOf(ys) };
    const xRange = rangeOf(edges?.across ?? cells.map(({ x }) => x));
    const yRange = rangeOf(edges?.up ?? cells.map(({ y }) => y));
    return [
      {
        panel,
        box,
        x: makeAxis(across, xRange, [box.left, box.right], massUnit, 6.4 * look.text),
        y: makeAxis(up, yRange, [box.bottom, box.top], massUnit, 4 * look.text),
        edges,
      },
    ];
  });
};
