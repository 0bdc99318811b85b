/** What the craft weighs before and after every leg of a sortie: stacked bands, each with its name. */
import { area, line } from "d3-shape";
import type { Propellant } from "../../entity/propellant.ts";
import { type MassBand, massBands } from "../../sortie/mass-bands.ts";
import type { SortieSheet } from "../../sortie/sheet.ts";
import { type Plot, round, valueAxis, valueScale } from "./axis.ts";
import { type Ink, type Picture, type Shape, pathShape, propellantInk, textShape } from "./picture.ts";

interface Frame {
  readonly width: number;
  readonly height: number;
  readonly massUnit: "t" | "kg";
}

const NAME_GAP = 8.5;

const inkOf = ({ position }: MassBand): Ink => (position === null ? "quiet" : propellantInk(position));

/** Names at the right edge in the order of the stack, each beside its band or as near above it as there is room. */
const names = (bands: readonly MassBand[], plot: Plot, y: (kg: number) => number): readonly Shape[] => {
  let below = plot.bottom + NAME_GAP;
  return bands.map((band) => {
    const middle = ((band.lower.at(-1) ?? 0) + (band.upper.at(-1) ?? 0)) / 2;
    below = Math.min(below - NAME_GAP, y(middle) + 2.5);
    return textShape(plot.right + 4, round(below), band.name, { size: 7, ink: inkOf(band), isBold: true });
  });
};

/** Legs stand side by side at equal widths and bear the numbers of the table. Size in points. */
export const sortieMassPicture = (
  sheet: SortieSheet,
  propellants: readonly Propellant[],
  { width, height, massUnit }: Frame,
): Picture => {
  const plot: Plot = { left: 44, top: 10, right: width - 68, bottom: height - 18 };
  const bands = massBands(sheet, propellants);
  const legs = Math.max(1, sheet.legs.length);
  const x = (state: number): number => round(plot.left + ((plot.right - plot.left) * state) / legs);
  const scale = valueScale(plot, Math.max(0, ...(bands.at(-1)?.upper ?? [])));
  const y = (kg: number): number => round(scale(kg));
  const states = Array.from({ length: legs + 1 }, (_, state) => state);
  const stack = bands.flatMap((band): readonly Shape[] => {
    const filled = area<number>(
      (state) => x(state),
      (state) => y(band.lower[state] ?? 0),
      (state) => y(band.upper[state] ?? 0),
    );
    const edge = line<number>(
      (state) => x(state),
      (state) => y(band.upper[state] ?? 0),
    );
    const ink = inkOf(band);
    return [
      pathShape(filled(states) ?? "", { fill: ink, fillOpacity: band.position === null ? 0.25 : 0.6 }),
      pathShape(edge(states) ?? "", { stroke: ink, width: 0.6 }),
    ];
  });
  const numbers = sheet.legs.map((leg, state) =>
    textShape(round((x(state) + x(state + 1)) / 2), plot.bottom + 11, String(leg.stepIndex + 1), {
      size: 7,
      ink: "quiet",
      anchor: "middle",
    }),
  );
  return {
    width,
    height,
    shapes: [
      ...valueAxis(plot, scale, massUnit, { perUnit: massUnit === "t" ? 1000 : 1 }),
      ...stack,
      pathShape(`M${plot.left},${plot.bottom}H${plot.right}`, { stroke: "hairline", width: 0.75 }),
      ...numbers,
      ...names(bands, plot, y),
    ],
  };
};
