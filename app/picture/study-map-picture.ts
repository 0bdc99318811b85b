/** The map of a study over two of its inputs: how many sorties are supplied, and the line where one stops to be. */
import { scaleLinear } from "d3-scale";
import { NARROW_SPACE } from "../format/number.ts";
import { PlanningError } from "../ground/failure.ts";
import type { StudyMap } from "../study/study-map.ts";
import { capitalised } from "../words/counted.ts";
import { line, type Picture, type Shape, type TextLook, wordsOn } from "./shape.ts";

const WIDTH = 520;
const HEIGHT = 360;
const BOX = { left: 62, top: 58, right: WIDTH - 96, bottom: HEIGHT - 70 };

/** Edges of the cells: half-way between neighbours, and as far beyond the outermost. */
const edgesOf = (values: readonly number[]): readonly number[] => {
  const [first = 0] = values;
  const last = values.at(-1) ?? 0;
  const between = values.slice(1).map((value, n) => (value + (values[n] ?? 0)) / 2);
  const before = first - ((between[0] ?? first + 0.5) - first);
  return [before, ...between, last + (last - (between.at(-1) ?? last - 0.5))];
};

const figure = (value: number): string => String(Number(value.toPrecision(6))).replace("-", "−");
const withUnit = (words: string, unit: string): string => (unit === "" ? words : `${words}, ${unit}`);

/** The share of ink of a cell: none where all is supplied, most where nothing is. */
const shadeOf = (count: number, most: number): number => (most === 0 ? 0 : (0.75 * (most - count)) / most);

const said = (x: number, baseline: number, text: string, look: TextLook = {}): Shape =>
  wordsOn(x, baseline, text, { ink: "ink", ...look, size: look.size ?? 8 });

/** Where the plan is as it stands. */
const cross = (x: number, y: number): readonly Shape[] => [
  line(x - 5, y, x + 5, y, "ink", 1.5),
  line(x, y - 5, x, y + 5, "ink", 1.5),
];

/** A picture for paper and screen. Throws "refused" where an input has one value only. */
export const studyMapPicture = (map: StudyMap): Picture => {
  const { across, up } = map;
  if (across.values.length < 2 || up.values.length < 2)
    throw new PlanningError("refused", "A map needs two values at least of each of its two inputs.");
  const [xEdges, yEdges] = [edgesOf(across.values), edgesOf(up.values)];
  const x = scaleLinear([xEdges[0] ?? 0, xEdges.at(-1) ?? 1], [BOX.left, BOX.right]);
  const y = scaleLinear([yEdges[0] ?? 0, yEdges.at(-1) ?? 1], [BOX.bottom, BOX.top]);
  const atX = (n: number): number => x(xEdges[n] ?? 0);
  const atY = (n: number): number => y(yEdges[n] ?? 0);
  const supplied = (i: number, j: number): number => map.supplied[i]?.[j] ?? 0;

  const cells = across.values.flatMap((_, i) =>
    up.values.flatMap((__, j): readonly Shape[] => {
      const shade = shadeOf(supplied(i, j), map.sorties);
      if (shade === 0) return [];
      return [
        {
          kind: "rect",
          x: atX(i),
          y: atY(j + 1),
          width: atX(i + 1) - atX(i),
          height: atY(j) - atY(j + 1),
          fill: "accent",
          edge: null,
          alpha: shade,
        },
      ];
    }),
  );
  // Between two neighbours of which one has more sorties supplied; the bold line bounds what holds wholly.
  const steps: Shape[] = [];
  const bounds: Shape[] = [];
  const border = (a: number, b: number, ends: readonly [number, number, number, number]): void => {
    if (a === b) return;
    if ((a === map.sorties) === (b === map.sorties)) steps.push(line(...ends, "sheet", 0.75));
    else bounds.push(line(...ends, "ink", 2));
  };
  across.values.forEach((_, i) =>
    up.values.forEach((__, j) => {
      if (i > 0) border(supplied(i - 1, j), supplied(i, j), [atX(i), atY(j), atX(i), atY(j + 1)]);
      if (j > 0) border(supplied(i, j - 1), supplied(i, j), [atX(i), atY(j), atX(i + 1), atY(j)]);
    }),
  );
  const levels = [...new Set(map.supplied.flat())].toSorted((a, b) => b - a);
  const legend = levels.flatMap((count, n): readonly Shape[] => {
    const top = BOX.top + 16 + n * 16;
    const box = { kind: "rect", x: BOX.right + 14, y: top, width: 12, height: 10, edgeWidth: 0.5 } as const;
    return [
      { ...box, fill: "accent", edge: null, alpha: shadeOf(count, map.sorties) },
      { ...box, fill: null, edge: "hairline" },
      said(BOX.right + 32, top + 8.5, `${count} of ${map.sorties}`),
    ];
  });
  const today: readonly Shape[] =
    across.today === null || up.today === null
      ? []
      : [...cross(x(across.today), y(up.today))].filter(
          () => isInside(across.today, xEdges) && isInside(up.today, yEdges),
        );
  const holds = levels[0] === map.sorties;
  const below = holds
    ? bounds.length > 0
      ? "Heavy line: on its light side every sortie is supplied."
      : "Every sortie is supplied all over the map."
    : `Nowhere on this map are all ${map.sorties} sorties supplied.`;
  return {
    width: WIDTH,
    height: HEIGHT,
    groups: [
      {
        clip: null,
        shapes: [
          said(BOX.left, 16, capitalised(map.name), { size: 11, isBold: true }),
          said(BOX.left, 30, `${map.planCase}: sorties supplied with the reserve kept`, { ink: "ink-soft" }),
          ...cells,
          ...steps,
          ...bounds,
          {
            kind: "rect",
            x: BOX.left,
            y: BOX.top,
            width: BOX.right - BOX.left,
            height: BOX.bottom - BOX.top,
            fill: null,
            edge: "hairline",
            edgeWidth: 0.75,
          },
          ...x
            .ticks(6)
            .map((tick) => said(x(tick), BOX.bottom + 13, figure(tick), { ink: "ink-soft", anchor: "middle" })),
          ...y
            .ticks(6)
            .map((tick) => said(BOX.left - 6, y(tick) + 3, figure(tick), { ink: "ink-soft", anchor: "end" })),
          said((BOX.left + BOX.right) / 2, BOX.bottom + 28, withUnit(across.words, across.unit), {
            anchor: "middle",
          }),
          said(BOX.left, BOX.top - 7, withUnit(up.words, up.unit)),
          said(BOX.right + 14, BOX.top + 8, "Supplied", { ink: "ink-soft" }),
          ...legend,
          ...today,
          ...(today.length > 0
            ? [
                said(BOX.right + 14, BOX.top + 16 + levels.length * 16 + 10, `+${NARROW_SPACE}the plan as it is`, {
                  ink: "ink-soft",
                }),
              ]
            : []),
          said(BOX.left, HEIGHT - 24, below, { ink: "ink-soft" }),
          said(BOX.left, HEIGHT - 11, "A sortie that is not loaded leaves its propellant to the later ones.", {
            ink: "ink-soft",
          }),
        ],
      },
    ],
  };
};

const isInside = (value: number | null, edges: readonly number[]): boolean =>
  value !== null && value >= (edges[0] ?? 0) && value <= (edges.at(-1) ?? 0);
