/** The map of a study over two of its inputs: how many sorties are supplied, and the line where one stops to be. */
import { scaleLinear } from "d3-scale";
import { NARROW_SPACE } from "../../format/number.ts";
import { PlanningError } from "../../ground/failure.ts";
import type { StudyMap } from "../../study/study-map.ts";
import { round } from "./axis.ts";
import { capitalised } from "../../words/counted.ts";
import { type Picture, type Shape, pathShape, textShape } from "./picture.ts";

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
const shadeOf = (count: number, most: number): number => round(most === 0 ? 0 : (0.75 * (most - count)) / most);

/** A picture for paper and screen. Throws "refused" where an input has one value only. */
export const studyMapPicture = (map: StudyMap): Picture => {
  const { across, up } = map;
  if (across.values.length < 2 || up.values.length < 2)
    throw new PlanningError("refused", "A map needs two values at least of each of its two inputs.");
  const [xEdges, yEdges] = [edgesOf(across.values), edgesOf(up.values)];
  const x = scaleLinear([xEdges[0] ?? 0, xEdges.at(-1) ?? 1], [BOX.left, BOX.right]);
  const y = scaleLinear([yEdges[0] ?? 0, yEdges.at(-1) ?? 1], [BOX.bottom, BOX.top]);
  const atX = (n: number): number => round(x(xEdges[n] ?? 0));
  const atY = (n: number): number => round(y(yEdges[n] ?? 0));
  const supplied = (i: number, j: number): number => map.supplied[i]?.[j] ?? 0;

  const cells = across.values.flatMap((_, i) =>
    up.values.flatMap((__, j): readonly Shape[] => {
      const shade = shadeOf(supplied(i, j), map.sorties);
      if (shade === 0) return [];
      const path = `M${atX(i)},${atY(j)}H${atX(i + 1)}V${atY(j + 1)}H${atX(i)}Z`;
      return [pathShape(path, { fill: "first", fillOpacity: shade })];
    }),
  );
  // Between two neighbours of which one has more sorties supplied; the bold line bounds what holds wholly.
  const steps: string[] = [];
  const bounds: string[] = [];
  const border = (a: number, b: number, path: string): void => {
    if (a === b) return;
    ((a === map.sorties) === (b === map.sorties) ? steps : bounds).push(path);
  };
  across.values.forEach((_, i) =>
    up.values.forEach((__, j) => {
      if (i > 0) border(supplied(i - 1, j), supplied(i, j), `M${atX(i)},${atY(j)}V${atY(j + 1)}`);
      if (j > 0) border(supplied(i, j - 1), supplied(i, j), `M${atX(i)},${atY(j)}H${atX(i + 1)}`);
    }),
  );
  const levels = [...new Set(map.supplied.flat())].toSorted((a, b) => b - a);
  const legend = levels.flatMap((count, n): readonly Shape[] => {
    const top = BOX.top + 16 + n * 16;
    const box = `M${BOX.right + 14},${top}h12v10h-12Z`;
    return [
      pathShape(box, { fill: "first", fillOpacity: shadeOf(count, map.sorties), stroke: "hairline", width: 0.5 }),
      textShape(BOX.right + 32, top + 8.5, `${count} of ${map.sorties}`),
    ];
  });
  const today: readonly Shape[] =
    across.today === null || up.today === null
      ? []
      : [
          pathShape(`M${round(x(across.today)) - 5},${round(y(up.today))}h10m-5,-5v10`, { stroke: "text", width: 1.5 }),
        ].filter(() => isInside(across.today, xEdges) && isInside(up.today, yEdges));
  const holds = levels[0] === map.sorties;
  const below = holds
    ? bounds.length > 0
      ? "Heavy line: on its light side every sortie is supplied."
      : "Every sortie is supplied all over the map."
    : `Nowhere on this map are all ${map.sorties} sorties supplied.`;
  return {
    width: WIDTH,
    height: HEIGHT,
    shapes: [
      textShape(BOX.left, 16, capitalised(map.name), { size: 11, isBold: true }),
      textShape(BOX.left, 30, `${map.planCase}: sorties supplied with the reserve kept`, { ink: "quiet" }),
      ...cells,
      pathShape(steps.join("") || `M${BOX.left},${BOX.top}`, { stroke: "ground", width: 0.75 }),
      pathShape(bounds.join("") || `M${BOX.left},${BOX.top}`, { stroke: "text", width: 2 }),
      pathShape(`M${BOX.left},${BOX.top}H${BOX.right}V${BOX.bottom}H${BOX.left}Z`, { stroke: "hairline", width: 0.75 }),
      ...x
        .ticks(6)
        .map((tick) => textShape(round(x(tick)), BOX.bottom + 13, figure(tick), { ink: "quiet", anchor: "middle" })),
      ...y
        .ticks(6)
        .map((tick) => textShape(BOX.left - 6, round(y(tick)) + 3, figure(tick), { ink: "quiet", anchor: "end" })),
      textShape(round((BOX.left + BOX.right) / 2), BOX.bottom + 28, withUnit(across.words, across.unit), {
        anchor: "middle",
      }),
      textShape(BOX.left, BOX.top - 7, withUnit(up.words, up.unit)),
      textShape(BOX.right + 14, BOX.top + 8, "Supplied", { ink: "quiet" }),
      ...legend,
      ...today,
      ...(today.length > 0
        ? [
            textShape(BOX.right + 14, BOX.top + 16 + levels.length * 16 + 10, `+${NARROW_SPACE}the plan as it is`, {
              ink: "quiet",
            }),
          ]
        : []),
      textShape(BOX.left, HEIGHT - 24, below, { ink: "quiet" }),
      textShape(BOX.left, HEIGHT - 11, "A sortie that is not loaded leaves its propellant to the later ones.", {
        ink: "quiet",
      }),
    ],
  };
};

const isInside = (value: number | null, edges: readonly number[]): boolean =>
  value !== null && value >= (edges[0] ?? 0) && value <= (edges.at(-1) ?? 0);
