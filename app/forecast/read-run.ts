/** What a run says of tanks and needs. Masses in kg; `tank` and `need` are indices of the compiled plan. */
import {
  ABOARD,
  AGAIN,
  CHANGED,
  FREE,
  LEFT,
  LOAD,
  LOST,
  MASS,
  NEED_WIDTH,
  RECORD_WIDTH,
  RESERVE,
  SURVEY_WIDTH,
  TANK_WIDTH,
  WANTED,
} from "./layout.ts";
import { NOTHING_KG } from "./pool.ts";
import { OUTCOME, STATUS } from "./run.ts";
import type { Run } from "./run-state.ts";

const tankColumn = (run: Run, tank: number, column: number): number => run.tanks[TANK_WIDTH * tank + column] ?? 0;
const found = (run: Run, need: number, column: number): number => run.surveys[SURVEY_WIDTH * need + column] ?? 0;

/** What records changed of a tank's level within the run. */
export const recordedKg = (run: Run, tank: number): number => run.records[RECORD_WIDTH * tank + CHANGED] ?? 0;

/** Level of a tank at the instant to which it was carried: after a whole run, the horizon. */
export const massKg = (run: Run, tank: number): number => tankColumn(run, tank, MASS);

/** Lost from a tank so far (boil-off). */
export const lostKg = (run: Run, tank: number): number => tankColumn(run, tank, LOST);

/** How many lines could not give all at their arrival: leftLine and leftKg say which, and how much. */
export const leftCount = (run: Run): number => run.counters[LEFT] ?? 0;

/** What is aboard, as far as the need asks for it, at the planned loading. */
const hereKg = (run: Run, need: number): number => {
  const held = found(run, need, ABOARD);
  const load = run.needs[NEED_WIDTH * need + LOAD] ?? 0;
  return held < load ? held : load;
};

/** Aboard and above heel in the depot's tanks, at the planned loading. */
export const needAvailableKg = (run: Run, need: number): number => hereKg(run, need) + found(run, need, FREE);

/** Aboard and to be drawn, chilldown and transfer loss included, at the planned loading. */
export const needRequiredKg = (run: Run, need: number): number => hereKg(run, need) + found(run, need, WANTED);

/** Available − required − (reserve above heel, where something is drawn), at the planned loading. */
export const needMarginKg = (run: Run, need: number): number => {
  const wanted = found(run, need, WANTED);
  const reserve = wanted > 0 ? (run.needs[NEED_WIDTH * need + RESERVE] ?? 0) : 0;
  return found(run, need, FREE) - wanted - reserve;
};

/** A STATUS, at the planned loading. */
export const needStatus = (run: Run, need: number): number => {
  const wanted = found(run, need, WANTED);
  if (wanted > found(run, need, FREE) + NOTHING_KG) return STATUS.short;
  return wanted > 0 && needMarginKg(run, need) < -NOTHING_KG ? STATUS.thin : STATUS.supplied;
};

/** Column of the last try of a need's sortie: the planned loading, or one after it. */
const lastTry = (run: Run, need: number): number =>
  run.sortieOutcome[run.needSortie[need] ?? 0] === OUTCOME.waitsAndFlies ? AGAIN : 0;

/** Aboard before the loading: the one with which the sortie left, or the planned one. */
export const needAboardKg = (run: Run, need: number): number => found(run, need, lastTry(run, need) + ABOARD);

/** To be drawn at the loading: the one with which the sortie left, or the planned one. */
export const needWantedKg = (run: Run, need: number): number => found(run, need, lastTry(run, need) + WANTED);

/** Drawn at the loading; 0: the sortie has not left. */
export const needDrawnKg = (run: Run, need: number): number => {
  const isLoaded = !Number.isNaN(run.sortieLoadedAt[run.needSortie[need] ?? 0] ?? Number.NaN);
  return isLoaded ? Math.min(needWantedKg(run, need), found(run, need, lastTry(run, need) + FREE)) : 0;
};
