/** What one level chart shows, on screen and on paper: one propellant of a depot, its limits, past, forecast, readings, bands. */
import type { Propellant } from "../../entity/propellant.ts";
import type { PlanSnapshot } from "../../entity/plan.ts";
import type { Tank } from "../../entity/tank.ts";
import { type AssumedStretch, assumedStretches } from "../../forecast/assumed.ts";
import { type SummedStretch, sumLevels } from "../../forecast/curve.ts";
import type { Reading } from "../../ledger/journal.ts";
import type { Band } from "../../risk/answer.ts";
import type { LevelHistory } from "../../storage/segment.ts";
import { type PlanFinding, overdueOf } from "../../supply/answer.ts";

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
  readonly readings: readonly LevelReading[];
  /** Where the runs of the risk lie; null: not known, or not wanted. */
  readonly band: { readonly levels: Band; readonly isOld: boolean } | null;
  /** The highest mass that its chart must show, kg. */
  readonly highestKg: number;
}

/** A reading of the depot's propellant: with one tank the reading itself, with several those of one instant together. */
export interface LevelReading {
  readonly at: number;
  readonly massKg: number;
  readonly sigmaKg: number;
  readonly readingIds: readonly string[];
}

/** What the levels of a depot are taken from. */
export interface LevelInputs {
  readonly plan: PlanSnapshot;
  readonly past: readonly LevelHistory[];
  readonly readings: readonly Reading[];
  readonly forecast: readonly LevelHistory[];
  /** Of the case compared with; null: none is. */
  readonly compare: readonly LevelHistory[] | null;
  readonly findings: readonly PlanFinding[];
  readonly risk: { readonly bands: readonly Band[]; readonly isOld: boolean } | null;
}

/** The levels of some tanks together. */
export const stretchesOf = (levels: readonly LevelHistory[], tanks: readonly Tank[]): readonly SummedStretch[] =>
  sumLevels(
    levels.filter((level) => tanks.some((tank) => tank.id === level.tankId)).map((level) => level.segments),
  ).filter((stretch) => stretch.parts.length > 0);

const total = (tanks: readonly Tank[], of: (tank: Tank) => number): number =>
  tanks.reduce((sum, tank) => sum + of(tank), 0);

/** The readings of one instant together; null: not of every tank. */
const together = (group: readonly Reading[], tanks: readonly Tank[]): LevelReading | null => {
  const [first] = group;
  if (first === undefined || new Set(group.map((reading) => reading.tankId)).size !== tanks.length) return null;
  return {
    at: first.at,
    massKg: group.reduce((sum, reading) => sum + reading.massKg, 0),
    sigmaKg: Math.hypot(...group.map((reading) => reading.sigmaKg)),
    readingIds: group.map((reading) => reading.id),
  };
};

/** Readings that cover every tank at one instant, summed; uncertainties of single tanks are taken as independent. */
const summedReadings = (readings: readonly Reading[], tanks: readonly Tank[]): readonly LevelReading[] => {
  const ids = new Set(tanks.map(({ id }) => id));
  const counted = readings
    .filter(({ isWithdrawn, tankId }) => !isWithdrawn && ids.has(tankId))
    .sort((a, b) => a.at - b.at);
  const found: LevelReading[] = [];
  for (let from = 0; from < counted.length;) {
    let until = from + 1;
    while (counted[until]?.at === counted[from]?.at) until += 1;
    const reading = together(counted.slice(from, until), tanks);
    if (reading !== null) found.push(reading);
    from = until;
  }
  return found;
};

/** A hundred thousand readings are summed once for all pictures of a ledger, and not in each frame of a drag. */
const known = new WeakMap<readonly Reading[], Map<string, readonly LevelReading[]>>();

const readingsOf = (readings: readonly Reading[], tanks: readonly Tank[]): readonly LevelReading[] => {
  const ofThese = known.get(readings) ?? new Map<string, readonly LevelReading[]>();
  known.set(readings, ofThese);
  const key = JSON.stringify(tanks.map(({ id }) => id));
  const found = ofThese.get(key) ?? summedReadings(readings, tanks);
  ofThese.set(key, found);
  return found;
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

/** The level of one propellant at a depot; null: the depot has no tank for it. */
export const levelSource = (inputs: LevelInputs, depotId: string, propellant: Propellant): LevelSource | null => {
  const { plan, risk } = inputs;
  const tanks = plan.tanks.filter(
    (tank) => tank.ownerKind === "depot" && tank.ownerId === depotId && tank.propellantId === propellant.id,
  );
  if (tanks.length === 0) return null;
  const fillKg = total(tanks, (tank) => tank.maximumFillKg);
  const past = stretchesOf(inputs.past, tanks);
  const ahead = stretchesOf(inputs.forecast, tanks);
  const compare = inputs.compare === null ? null : stretchesOf(inputs.compare, tanks);
  const levels = risk?.bands.find((band) => band.depotId === depotId && band.propellantId === propellant.id);
  return {
    propellant,
    tanks,
    fillKg,
    reserveKg: total(tanks, (tank) => tank.reserveKg),
    heelKg: total(tanks, (tank) => tank.heelKg),
    past,
    assumed: assumedStretches(plan, overdueOf(inputs.findings), depotId, propellant.id),
    forecast: ahead,
    compare,
    readings: readingsOf(inputs.readings, tanks),
    band: levels === undefined || risk === null ? null : { levels, isOld: risk.isOld },
    highestKg: Math.max(
      fillKg,
      highest(past),
      highest(ahead),
      highest(compare ?? []),
      (levels?.p95 ?? []).reduce((most, massKg) => Math.max(most, massKg), 0),
    ),
  };
};

/** The levels of one depot, in the order of the propellants. */
export const levelSources = (inputs: LevelInputs, depotId: string): readonly LevelSource[] =>
  [...inputs.plan.propellants]
    .sort((a, b) => a.position - b.position)
    .flatMap((propellant) => levelSource(inputs, depotId, propellant) ?? []);
