/** What a top-up takes on top of a sortie's load, line by line, as a sortie's sheet says it. */
import type { CraftPropellant } from "../entity/craft.ts";
import type { Propellant } from "../entity/propellant.ts";
import { formatNumber, formatPercent, withUnit } from "../format/number.ts";
import { wallChilldownKg } from "./top-up-chilldown.ts";

const kg = (massKg: number): string => withUnit(formatNumber(massKg, 1), "kg");

const ofLine = (line: CraftPropellant, { name, fluid }: Pick<Propellant, "name" | "fluid">): readonly string[] => {
  const boiled = wallChilldownKg(line, fluid);
  return [
    ...(line.chilldownKg > 0 ? [`${name}, line chilldown: ${kg(line.chilldownKg)} at each top-up, as stated.`] : []),
    ...(line.wall !== undefined && boiled > 0
      ? [
          `${name}, tank chilldown: ${kg(boiled)} boil at each top-up to cool ${kg(line.wall.massKg)} of ${line.wall.metal} from ${withUnit(formatNumber(line.wall.temperatureK), "K")}. Heat by the law of Dulong and Petit (3R a mole) over the heat of vaporisation, as if the vapour left cold: the most.`,
        ]
      : []),
    ...(line.lossFraction > 0
      ? [`${name}, lost in the transfer: ${formatPercent(100 * line.lossFraction, 2)} of what flows, as stated.`]
      : []),
  ];
};

/** Sentences for a lander class's lines, in order of the propellants; a line that loses nothing has none. */
export const topUpWords = (
  lines: readonly CraftPropellant[],
  propellants: readonly Pick<Propellant, "id" | "name" | "fluid">[],
): readonly string[] =>
  propellants.flatMap((propellant) =>
    lines.filter(({ propellantId }) => propellantId === propellant.id).flatMap((line) => ofLine(line, propellant)),
  );

/** What stands above them. */
export const TOP_UP_HEADING = "On top of the load, the depot gives at each top-up:";
