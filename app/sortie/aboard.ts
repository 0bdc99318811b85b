/** What a stay asks of a tank aboard: the forecast's level equation, solved for the level at the start. */
import { phi1 } from "../storage/level.ts";

/**
 * What must be there before a stay so that `afterKg` is there at its end, under dm/dt = −(k·m + c) with c the loss and
 * the steady draw of crew and power; k per day, kg/day, days. Where nothing is asked for, nothing is needed: an empty
 * tank has nothing to lose.
 */
export const neededBefore = (
  afterKg: number,
  kPerDay: number,
  cKgPerDay: number,
  drawKgPerDay: number,
  days: number,
): number => {
  if (afterKg <= 0 && drawKgPerDay <= 0) return 0;
  const x = kPerDay * days;
  return Math.exp(x) * (afterKg + (cKgPerDay + drawKgPerDay) * days * phi1(x));
};
