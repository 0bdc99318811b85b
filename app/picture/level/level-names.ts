/** Names at the right ends of the lines of a level chart, moved apart where they would touch. */
import { formatMass, type MassUnit } from "../../format/mass.ts";
import { levelOf } from "../curve.ts";
import { fitted } from "../fitted.ts";
import { type Ink, propellantInk } from "../ink.ts";
import { dodge } from "../label-placement.ts";
import type { MassScale } from "../mass-scale.ts";
import type { Measure, Shape } from "../shape.ts";
import type { LevelLook } from "./level-look.ts";
import type { LevelSource } from "./level-source.ts";

interface EndName {
  readonly name: string;
  /** After the name: a long name is cut, its figure is not. */
  readonly figure: string;
  readonly at: number;
  readonly ink: Ink;
  readonly isBold: boolean;
  /** The first keep their place when there is no room for all. */
  readonly rank: number;
}

/** Which lines are named, and how. */
export interface LevelNames {
  /** The instant whose level stands beside the name. */
  readonly at: number;
  /** null: names alone, where there is no room for masses. */
  readonly unit: MassUnit | null;
  /** The curve's own name; null: it stands elsewhere. */
  readonly curve: string | null;
  /** null: there is none, or it is named elsewhere. */
  readonly compared: { readonly name: string; readonly hasMass: boolean } | null;
}

/** Where the names may stand. */
export interface NameRoom {
  /** Right edge of the plot. */
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  /** As wide as a name may be. */
  readonly width: number;
}

const endNames = (source: LevelSource, axis: MassScale, names: LevelNames): readonly EndName[] => {
  const found: EndName[] = [];
  const { unit } = names;
  const add = (name: string, massKg: number, rank: number, { isBold = false, hasMass = true } = {}): void => {
    const figure = unit === null || !hasMass ? "" : ` ${formatMass(massKg, unit)}`;
    found.push({ name, figure, at: axis.y(massKg), ink: isBold ? "ink" : "ink-soft", isBold, rank });
  };
  const level = levelOf(source.forecast, names.at) ?? levelOf(source.past, names.at);
  if (level !== null && names.curve !== null) add(names.curve, level, 0, { isBold: true });
  const { compared } = names;
  const other = source.compare === null || compared === null ? null : levelOf(source.compare, names.at);
  // Where both end alike one name is enough, unless each says a mass.
  if (other !== null && compared !== null && level !== null && (compared.hasMass || Math.abs(other - level) > 0.5))
    add(compared.name, other, 2, { hasMass: compared.hasMass });
  if (source.fillKg > 0) add("maximum fill", source.fillKg, 1);
  if (source.reserveKg > source.heelKg) add("reserve", source.reserveKg, 1);
  if (source.heelKg > 0) add("heel", source.heelKg, 3);
  return found;
};

export const levelNames = (
  source: LevelSource,
  axis: MassScale,
  names: LevelNames,
  { right, top, bottom, width }: NameRoom,
  measure: Measure,
  look: LevelLook,
): readonly Shape[] => {
  const most = Math.max(1, Math.floor((bottom - top) / look.nameHeight));
  const shown = [...endNames(source, axis, names)].sort((a, b) => a.rank - b.rank).slice(0, most);
  const middles = dodge(
    shown.map((name) => ({ at: name.at, size: look.nameHeight })),
    top,
    bottom,
  );
  const own = propellantInk(source.propellant.position);
  return shown.flatMap((name, index): readonly Shape[] => {
    const y = middles[index] ?? name.at;
    const measured = (text: string): number => measure(`${text}${name.figure}`, look.name, name.isBold);
    const text = `${fitted(name.name, width, measured)}${name.figure}`;
    const leader: readonly Shape[] = look.hasLeader
      ? [
          {
            kind: "path",
            points: [right + 1, name.at, right + 5, name.at, right + 11, y, right + look.nameGap - 3, y],
            ink: name.isBold ? own : "hairline",
            width: 1,
          },
        ]
      : [];
    return [
      ...leader,
      {
        kind: "text",
        x: right + look.nameGap,
        y,
        text,
        ink: name.isBold && !look.hasLeader ? own : name.ink,
        size: look.name,
        anchor: "start",
        isBold: name.isBold,
      },
    ];
  });
};
