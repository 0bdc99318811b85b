/** What one level chart shows: one propellant of the chosen depot, its limits, its past, its forecast, its readings. */
import { type SummedStretch, sumLevels } from "../../../app/forecast/curve.ts";
import { type AssumedStretch, assumedStretches } from "../../../app/forecast/assumed.ts";
import { overdueOf } from "../../../app/supply/answer.ts";
import type { LevelHistory } from "../../../app/storage/segment.ts";
import type { Propellant } from "../../../app/entity/propellant.ts";
import type { Tank } from "../../../app/entity/tank.ts";
import type { Reading } from "../../../app/ledger/journal.ts";
import type { Band } from "../../../app/risk/answer.ts";
import type { CaseForecast } from "../../state/case-forecast.ts";

export interface LevelSource {
  readonly propellant: Propellant;
  readonly tanks: readonly Tank[];
  /** Of all its tanks together, kg. */
  readonly fillKg: number;
  readonly reserveKg: number;
  readonly heelKg: number;
  readonly past: readonly SummedStretch[];
  /** Parts of the past that rest on events without a record. */
  readonly assumed: readonly AssumedStretch[];
  readonly forecast: readonly SummedStretch[];
  /** The same propellant in the case compared with; null: none. */
  readonly compare: readonly SummedStretch[] | null;
  readonly readings: readonly LevelPoint[];
  /** Where the runs of the risk lie; null: not known, or not wanted. */
  readonly band: { readonly levels: Band; readonly isOld: boolean } | null;
  /** The highest mass that its chart must show, kg. */
  readonly highestKg: number;
}

/** A reading of the depot's propellant: with one tank the reading itself, with several those of one instant together. */
export interface LevelPoint {
  readonly at: number;
  readonly massKg: number;
  readonly sigmaKg: number;
  readonly readingIds: readonly string[];
}

const stretchesOf = (levels: readonly LevelHistory[], tanks: readonly Tank[]): readonly SummedStretch[] =>
  sumLevels(
    levels.filter((level) => tanks.some((tank) => tank.id === level.tankId)).map((level) => level.segments),
  ).filter((stretch) => stretch.parts.length > 0);

const total = (tanks: readonly Tank[], of: (tank: Tank) => number): number =>
  tanks.reduce((sum, tank) => sum + of(tank), 0);

/** Readings that cover every tank at one instant, summed; uncertainties of single tanks are taken as independent. */
const pointsOf = (readings: readonly Reading[], tanks: readonly Tank[]): readonly LevelPoint[] => {
  const byInstant = new Map<number, Reading[]>();
  for (const reading of readings)
    if (!reading.isWithdrawn && tanks.some((tank) => tank.id === reading.tankId))
      byInstant.set(reading.at, [...(byInstant.get(reading.at) ?? []), reading]);
  return [...byInstant]
    .filter(([, group]) => new Set(group.map((reading) => reading.tankId)).size === tanks.length)
    .map(([at, group]) => ({
      at,
      massKg: group.reduce((sum, reading) => sum + reading.massKg, 0),
      sigmaKg: Math.hypot(...group.map((reading) => reading.sigmaKg)),
      readingIds: group.map((reading) => reading.id),
    }))
    .sort((a, b) => a.at - b.at);
};

const highest = (stretches: readonly SummedStretch[]): number =>
  stretches.reduce(
    (most, { parts }) =>
      Math.max(
        most,
        parts.reduce((sum, part) => sum + part.m0Kg, 0),
      ),
    0,
  );

/** The levels of one depot, in the order of the propellants. `before`: what did not change since, in a drag. */
export const levelSources = (
  current: CaseForecast,
  compare: CaseForecast | null,
  depotId: string,
  risk: { readonly bands: readonly Band[]; readonly isOld: boolean } | null,
): readonly LevelSource[] => {
  const { plan, view, forecast } = current;
  const own = plan.tanks.filter((tank) => tank.ownerKind === "depot" && tank.ownerId === depotId);
  const overdue = overdueOf(current.glance.findings);
  return [...plan.propellants]
    .sort((a, b) => a.position - b.position)
    .flatMap((propellant) => {
      const tanks = own.filter((tank) => tank.propellantId === propellant.id);
      if (tanks.length === 0) return [];
      const fillKg = total(tanks, (tank) => tank.maximumFillKg);
      const past = stretchesOf(view.past, tanks);
      const ahead = stretchesOf(forecast.levels, tanks);
      const levels = risk?.bands.find((band) => band.depotId === depotId && band.propellantId === propellant.id);
      const compared = compare === null ? null : stretchesOf(compare.forecast.levels, tanks);
      return [
        {
          propellant,
          tanks,
          fillKg,
          reserveKg: total(tanks, (tank) => tank.reserveKg),
          heelKg: total(tanks, (tank) => tank.heelKg),
          past,
          assumed: assumedStretches(plan, overdue, depotId, propellant.id),
          forecast: ahead,
          compare: compared,
          readings: pointsOf(view.readings, tanks),
          band: levels === undefined || risk === null ? null : { levels, isOld: risk.isOld },
          highestKg: Math.max(fillKg, highest(past), highest(ahead)),
        },
      ];
    });
};

/** The same sources with the forecast of a changed plan: what a drag frame needs. */
export const withForecast = (
  sources: readonly LevelSource[],
  levels: readonly LevelHistory[],
): readonly LevelSource[] => sources.map((source) => ({ ...source, forecast: stretchesOf(levels, source.tanks) }));
