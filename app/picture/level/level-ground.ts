/** What a level chart stands on: rules of the mass axis with their figures, limits with the zones beyond them. */
import type { MassUnit } from "../../format/mass.ts";
import { withUnit } from "../../format/number.ts";
import { type MassScale, massScale, type MassTick } from "../mass-scale.ts";
import { type Box, line, type Shape, words } from "../shape.ts";
import type { LevelLook } from "./level-look.ts";
import type { LevelSource } from "./level-source.ts";

/** Mass axis of a chart whose curve runs inside `plot`. */
export const levelAxis = (source: LevelSource, plot: Box, unit: MassUnit): MassScale =>
  massScale(source.highestKg, plot.y, plot.y + plot.height, unit);

const zone = (from: number, until: number, left: number, right: number): readonly Shape[] =>
  until - from < 1
    ? []
    : [
        {
          kind: "area",
          points: [left, from, right, from, right, until, left, until],
          ink: "hairline",
          texture: "hatched",
          alpha: 0.8,
        },
      ];

/** Rules, zones and limit lines; the caller cuts them off at the plot. */
export const levelGround = (source: LevelSource, plot: Box, axis: MassScale, look: LevelLook): readonly Shape[] => {
  const { x: left, y: top, width, height } = plot;
  const right = left + width;
  const bottom = top + height;
  const rules = axis.ticks
    .filter((tick) => tick.massKg > 0)
    .map((tick) => line(left, tick.y, right, tick.y, "rule", look.rule));
  const fillY = axis.y(source.fillKg);
  const heelY = axis.y(source.heelKg);
  const reserveY = axis.y(source.reserveKg);
  const limits: Shape[] = [];
  if (source.fillKg > 0) {
    if (look.isZoned) limits.push(...zone(top, fillY, left, right));
    limits.push(line(left, fillY, right, fillY, "ink-soft", look.limit));
  }
  if (source.heelKg > 0) {
    if (look.isZoned) limits.push(...zone(heelY, bottom, left, right));
    limits.push(line(left, heelY, right, heelY, "ink-soft", look.limit, look.heelDash));
  }
  if (source.reserveKg > source.heelKg)
    limits.push(line(left, reserveY, right, reserveY, "ink-soft", look.limit, look.reserveDash));
  return [...rules, ...limits, line(left, bottom, right, bottom, "hairline", look.limit)];
};

/** Figures of the mass axis left of the plot; the topmost of those that are kept bears the unit. */
export const levelFigures = (
  ticks: readonly MassTick[],
  unit: MassScale["unit"],
  plot: Box,
  look: LevelLook,
): readonly Shape[] =>
  ticks.map((tick, index) =>
    words(plot.x - look.figureGap, tick.y, index === ticks.length - 1 ? withUnit(tick.label, unit) : tick.label, {
      size: look.text,
      anchor: "end",
    }),
  );
