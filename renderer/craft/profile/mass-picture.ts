/** Mass by leg: what the craft weighs before and after every step, as stacked bands of hardware and propellants. */
import type { Propellant } from "../../../app/entity/propellant.ts";
import { type MassBand, massBands } from "../../../app/sortie/mass-bands.ts";
import type { SortieSheet } from "../../../app/sortie/sheet.ts";
import { massScale } from "../../../app/picture/mass-scale.ts";
import { type Ink, propellantInk } from "../../../app/picture/ink.ts";
import { line, type Picture, type Shape } from "../../../app/picture/shape.ts";
import type { MassUnit } from "../../format/mass.ts";
import { withUnit } from "../../format/number.ts";

interface Frame {
  readonly width: number;
  readonly height: number;
}

const MARGIN = { left: 52, right: 80, top: 12, bottom: 24 } as const;

/** How a band is drawn. */
const inkOf = ({ position }: MassBand): { readonly ink: Ink; readonly alpha: number } =>
  position === null ? { ink: "ink-soft", alpha: 0.28 } : { ink: propellantInk(position), alpha: 0.75 };

/** Least distance between two names at the right edge, pixels. */
const NAME_GAP = 14;

/** A band is named where it is tallest, if the name fits into it; the others at the right end, one above the other. */
const bandNames = (
  bands: readonly MassBand[],
  x: (state: number) => number,
  y: (kg: number) => number,
  edge: { readonly left: number; readonly right: number; readonly bottom: number },
): Shape[] => {
  let below = edge.bottom;
  return bands.map((band): Shape => {
    const name = { kind: "text", text: band.name, ink: "ink", size: 12, anchor: "start", halo: "sheet" } as const;
    const tall = band.upper.map((kg, state) => kg - (band.lower[state] ?? 0));
    const state = tall.indexOf(Math.max(...tall));
    const [low, high] = [y(band.lower[state] ?? 0), y(band.upper[state] ?? 0)];
    if (low - high >= 16)
      return { ...name, x: Math.min(Math.max(x(state), edge.left + 6), edge.right - 80), y: (low + high) / 2 };
    const end = (y(band.lower.at(-1) ?? 0) + y(band.upper.at(-1) ?? 0)) / 2;
    below = Math.min(below, end + NAME_GAP) - NAME_GAP;
    return { ...name, x: edge.right + 6, y: below };
  });
};

/** The picture; legs stand side by side at equal widths and bear their numbers, as in the table. */
export const massPicture = (
  sheet: SortieSheet,
  propellants: readonly Propellant[],
  unit: MassUnit,
  { width, height }: Frame,
): Picture => {
  const left = MARGIN.left;
  const right = width - MARGIN.right;
  const bottom = height - MARGIN.bottom;
  const bands = massBands(sheet, propellants);
  const top = bands.at(-1)?.upper ?? [];
  const scale = massScale(Math.max(0, ...top), MARGIN.top, bottom, unit);
  const legs = sheet.legs.length;
  const x = (state: number): number => left + ((right - left) * state) / Math.max(1, legs);
  const shapes: Shape[] = [];
  for (const tick of scale.ticks) {
    const text = tick === scale.ticks.at(-1) ? withUnit(tick.label, scale.unit) : tick.label;
    shapes.push(line(left, tick.y, right, tick.y, "rule"));
    shapes.push({ kind: "text", x: left - 6, y: tick.y, text, ink: "ink-soft", size: 11, anchor: "end" });
  }
  for (const band of bands) {
    const edge = band.upper.flatMap((kg, state) => [x(state), scale.y(kg)]);
    const back = band.lower.flatMap((kg, state) => [x(state), scale.y(kg)]);
    const closed = [...edge];
    for (let i = back.length - 2; i >= 0; i -= 2) closed.push(back[i] ?? 0, back[i + 1] ?? 0);
    const { ink, alpha } = inkOf(band);
    shapes.push({ kind: "area", points: closed, ink, texture: "flat", alpha });
    shapes.push({ kind: "path", points: edge, ink, width: 1 });
  }
  shapes.push(line(left, bottom, right, bottom, "hairline"), line(left, MARGIN.top, left, bottom, "hairline"));
  sheet.legs.forEach((leg, i) => {
    if (i > 0) shapes.push(line(x(i), bottom, x(i), bottom + 4, "hairline"));
    const middle = (x(i) + x(i + 1)) / 2;
    const text = String(leg.stepIndex + 1);
    shapes.push({ kind: "text", x: middle, y: bottom + 13, text, ink: "ink-soft", size: 11, anchor: "middle" });
  });
  return {
    width,
    height,
    groups: [{ clip: null, shapes: [...shapes, ...bandNames(bands, x, scale.y, { left, right, bottom })] }],
  };
};
