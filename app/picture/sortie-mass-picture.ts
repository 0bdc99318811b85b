/** What the craft weighs before and after every leg of a sortie: stacked bands of hardware and propellants, each with its name. */
import type { Propellant } from "../entity/propellant.ts";
import type { MassUnit } from "../format/mass.ts";
import { withUnit } from "../format/number.ts";
import { type MassBand, massBands } from "../sortie/mass-bands.ts";
import type { SortieSheet } from "../sortie/sheet.ts";
import { type Ink, propellantInk } from "./ink.ts";
import type { Look, Size } from "./look.ts";
import { massScale } from "./mass-scale.ts";
import { footEdge, type Plot, plotOf, rulesAcross } from "./panel.ts";
import { flatArea, line, type Picture, type Shape, words } from "./shape.ts";

const inkOf = ({ position }: MassBand): { readonly ink: Ink; readonly alpha: number } =>
  position === null ? { ink: "ink-soft", alpha: 0.28 } : { ink: propellantInk(position), alpha: 0.7 };

/** What the names take beside the plot, in sizes of the text. */
const NAMES = 8.5;

/** A name inside its band where that is tallest and has the room; else at the right end, one above the other. */
const bandNames = (
  bands: readonly MassBand[],
  x: (state: number) => number,
  y: (kg: number) => number,
  plot: Plot,
  look: Look,
): readonly Shape[] => {
  const gap = 1.2 * look.name;
  let below = plot.bottom + gap / 2;
  return bands.map((band): Shape => {
    const tall = band.upper.map((kg, state) => kg - (band.lower[state] ?? 0));
    const state = tall.indexOf(Math.max(...tall));
    const [low, high] = [y(band.lower[state] ?? 0), y(band.upper[state] ?? 0)];
    const name = { size: look.name, ink: "ink", halo: "sheet" } as const;
    if (look.isNamedInside && low - high >= 1.4 * look.name)
      return words(
        Math.min(Math.max(x(state), plot.left + 6), plot.right - 7 * look.name),
        (low + high) / 2,
        band.name,
        name,
      );
    const end = (y(band.lower.at(-1) ?? 0) + y(band.upper.at(-1) ?? 0)) / 2;
    below = Math.min(below - gap, end);
    const ink = look.isNamedInside ? "ink" : inkOf(band).ink;
    return words(plot.right + 0.55 * look.text, below, band.name, { ...name, ink, isBold: !look.isNamedInside });
  });
};

/** Legs stand side by side at equal widths and bear the numbers of the table. */
export const sortieMassPicture = (
  sheet: SortieSheet,
  propellants: readonly Propellant[],
  unit: MassUnit,
  size: Size,
  look: Look,
): Picture => {
  const plot = plotOf(size, look, { top: 1.3 * look.text, right: NAMES * look.text, foot: 2.4 * look.text });
  const bands = massBands(sheet, propellants);
  const scale = massScale(Math.max(0, ...(bands.at(-1)?.upper ?? [])), plot.top, plot.bottom, unit);
  const legs = Math.max(1, sheet.legs.length);
  const x = (state: number): number => plot.left + ((plot.right - plot.left) * state) / legs;
  const stack = bands.flatMap((band): readonly Shape[] => {
    const edge = band.upper.flatMap((kg, state) => [x(state), scale.y(kg)]);
    const back = band.lower.map((kg, state) => [x(state), scale.y(kg)]).toReversed();
    const { ink, alpha } = inkOf(band);
    return [
      flatArea([...edge, ...back.flat()], ink, alpha),
      { kind: "path", points: edge, ink, width: look.curve * 0.66 },
    ];
  });
  const shapes: readonly Shape[] = [
    ...rulesAcross(
      plot,
      scale.ticks.map((tick) => ({
        at: tick.y,
        label: tick === scale.ticks.at(-1) ? withUnit(tick.label, scale.unit) : tick.label,
      })),
      look,
    ),
    ...stack,
    footEdge(plot, look),
    line(plot.left, plot.top, plot.left, plot.bottom, "hairline", look.edge),
    ...sheet.legs.flatMap((leg, i): readonly Shape[] => [
      ...(i > 0 ? [line(x(i), plot.bottom, x(i), plot.bottom + look.tick, "hairline", look.edge)] : []),
      words((x(i) + x(i + 1)) / 2, plot.bottom + 1.2 * look.text, String(leg.stepIndex + 1), {
        size: look.text,
        anchor: "middle",
      }),
    ]),
    ...bandNames(bands, x, scale.y, plot, look),
  ];
  return { ...size, groups: [{ clip: null, shapes }] };
};
