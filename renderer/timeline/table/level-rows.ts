/** A propellant's level as rows: every instant at which it changes by an event, and every reading. */
import { type SummedStretch, stretchLevel } from "../../../app/forecast/curve.ts";
import type { LevelSource } from "../../../app/picture/level/level-source.ts";
import { type TimelineModel, berthEndAt } from "../model/timeline-model.ts";

export interface LevelRow {
  readonly id: string;
  readonly at: number;
  readonly what: string;
  readonly beforeKg: number | null;
  readonly afterKg: number | null;
  /** Of the maximum fill, after it. */
  readonly percent: number | null;
}

/** Below a gram it is the rounding of the sum. */
const LEAST_KG = 1e-3;

/** The flight or sortie whose doing it is, by its instant. */
const causeOf = (model: TimelineModel, at: number, isGain: boolean): string => {
  const loads = new Map(model.glance.sorties.map((supply) => [supply.sortieId, supply.loadedAt]));
  const flight = model.flights.find((row) =>
    isGain ? at >= row.arriveAt && at <= berthEndAt(row) : row.departAt === at,
  );
  const sortie = model.sorties.find((row) => (loads.get(row.id) ?? row.loadAt) === at);
  const found = isGain ? flight : (sortie ?? flight);
  if (found === undefined) return isGain ? "inflow" : "draw";
  return isGain ? `from ${found.name}` : `to ${found.name}`;
};

const events = (model: TimelineModel, level: LevelSource, stretches: readonly SummedStretch[], name: string) => {
  const rows: LevelRow[] = [];
  const percent = (massKg: number): number | null => (level.fillKg > 0 ? (100 * massKg) / level.fillKg : null);
  let lastKg: number | null = null;
  for (const stretch of stretches) {
    const startKg = stretchLevel(stretch, stretch.startAt);
    if (lastKg === null || Math.abs(startKg - lastKg) > LEAST_KG)
      rows.push({
        id: `${name}/${stretch.startAt}`,
        at: stretch.startAt,
        what: lastKg === null ? name : causeOf(model, stretch.startAt, startKg > lastKg),
        beforeKg: lastKg,
        afterKg: startKg,
        percent: percent(startKg),
      });
    lastKg = stretchLevel(stretch, stretch.endAt);
  }
  const end = stretches.at(-1)?.endAt;
  if (end !== undefined && lastKg !== null)
    rows.push({
      id: `${name}/end`,
      at: end,
      what: `end of ${name}`,
      beforeKg: lastKg,
      afterKg: null,
      percent: percent(lastKg),
    });
  return rows;
};

export const levelRows = (model: TimelineModel, level: LevelSource): readonly LevelRow[] =>
  [
    ...events(model, level, level.past, "record"),
    ...events(model, level, level.forecast, "forecast"),
    ...level.readings.map((point): LevelRow => ({
      id: `reading/${point.at}`,
      at: point.at,
      what: "gauge reading",
      beforeKg: null,
      afterKg: point.massKg,
      percent: level.fillKg > 0 ? (100 * point.massKg) / level.fillKg : null,
    })),
  ].sort((a, b) => a.at - b.at);
