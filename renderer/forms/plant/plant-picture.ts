/** What becomes of a day's water, as bars: pairs for engines, what is breathed and burned in fuel cells, vented, not recovered. */
import type { PlantOutput } from "../../../app/plant/water-plant.ts";
import type { Ink } from "../../../app/picture/ink.ts";
import { line, type Picture, type Shape } from "../../../app/picture/shape.ts";
import { formatNumber } from "../../format/number.ts";

const ROW = 32;

interface Part {
  readonly name: string;
  readonly kg: number;
  readonly ink: Ink;
  /** What is used is flat, what is lost is hatched: told apart without colour. */
  readonly isLost?: boolean;
}

/** Uses and losses that are nothing are left out; the pairs always stand. */
const partsOf = (day: PlantOutput): readonly Part[] => {
  const uses: readonly Part[] = [
    { name: "Breathed, oxygen", kg: day.breathedKg, ink: "ink" },
    {
      // Of the water brought; what goes round through the fuel cells is no use of it.
      name: "Fuel cells, beyond their water",
      kg: day.fuelCellHydrogenKg + day.fuelCellOxygenKg - day.fuelCellWaterKg,
      ink: "ink",
    },
    { name: "Vented, oxygen", kg: day.oxygenVentedKg, ink: "ink-soft", isLost: true },
    { name: "Vented, hydrogen", kg: day.hydrogenVentedKg, ink: "ink-soft", isLost: true },
    { name: "Water not recovered", kg: day.waterLostKg, ink: "ink-soft", isLost: true },
  ];
  return [
    { name: "In pairs, hydrogen", kg: day.propellantHydrogenKg, ink: "accent" },
    { name: "In pairs, oxygen", kg: day.propellantOxygenKg, ink: "accent" },
    // A thousandth of a gram is rounding, not a use.
    ...uses.filter(({ kg }) => kg > 1e-6),
  ];
};

export const plantHeight = (day: PlantOutput): number => partsOf(day).length * ROW + 4;

const figure = (kg: number): string => `${formatNumber(kg, 1)}\u202fkg`;

/** The bars follow each other from left to right, so that together they are the day's water. */
export const plantPicture = (day: PlantOutput, { width, height }: { width: number; height: number }): Picture => {
  const parts = partsOf(day);
  const wholeKg = Math.max(
    1e-9,
    parts.reduce((sum, { kg }) => sum + kg, 0),
  );
  const x = (kg: number): number => 1 + ((width - 2) * kg) / wholeKg;
  let sum = 0;
  const shapes = parts.flatMap(({ name, kg, ink, isLost = false }, place): readonly Shape[] => {
    const top = place * ROW + 2;
    const [a, b] = [x(sum), x(sum + kg)];
    sum += kg;
    const [high, low] = [top + 18, top + 26];
    return [
      line(1, low, width - 1, low, "rule"),
      {
        kind: "area",
        points: [a, high, b, high, b, low, a, low],
        ink,
        texture: isLost ? "hatched" : "flat",
        alpha: isLost ? 1 : 0.75,
      },
      { kind: "rect", x: a, y: high, width: b - a, height: low - high, fill: null, edge: ink },
      { kind: "text", x: 0, y: top + 8, text: name, ink: "ink", size: 12, anchor: "start" },
      { kind: "text", x: width, y: top + 8, text: figure(kg), ink: "ink", size: 12, anchor: "end" },
    ];
  });
  return { width, height, groups: [{ clip: null, shapes }] };
};

/** The same in words. */
export const plantWords = (day: PlantOutput): string =>
  partsOf(day)
    .map(({ name, kg }) => `${name} ${formatNumber(kg, 1)} kg`)
    .join("; ");
