/** What a run says of tanks and needs. Masses in kg; `tank` and `need` are indices of the compiled plan. */
import type { Run } from "./run.ts";

/** Level of a tank at the instant to which it was carried: after a whole run, the horizon. */
export const massKg = (run: Run, tank: number): number => run.massKg[tank] ?? 0;

/** Lost from a tank so far (boil-off). */
export const lostKg = (run: Run, tank: number): number => run.lostKg[tank] ?? 0;

/** Aboard and above heel in the depot's tanks, at the planned loading. */
export const needAvailableKg = (run: Run, need: number): number => run.needAvailableKg[need] ?? 0;

/** Aboard and to be drawn, chilldown and transfer loss included, at the planned loading. */
export const needRequiredKg = (run: Run, need: number): number => run.needRequiredKg[need] ?? 0;

/** Available − required − (reserve above heel, where something is drawn), at the planned loading. */
export const needMarginKg = (run: Run, need: number): number => run.needMarginKg[need] ?? 0;

/** A STATUS, at the planned loading. */
export const needStatus = (run: Run, need: number): number => run.needStatus[need] ?? 0;

/** Aboard before the last try to load. */
export const needAboardKg = (run: Run, need: number): number => run.needAboardKg[need] ?? 0;

/** To be drawn at the last try to load. */
export const needWantedKg = (run: Run, need: number): number => run.needWantedKg[need] ?? 0;
