/** The closed form of one tank's level under dm/dt = −(k·m + c) + f, stopping at 0: one step, its integrals, its crossings. */

/** Below this argument the series is used; ten terms then err by less than 2^-55 (alternating: the first left out, x^10/11!). */
const SERIES_LIMIT = 0.125;

/**
 * φ1(x) = (1 − e^−x)/x, 1 at 0. x ≥ 0, no unit. Relative error a few 2^-53 everywhere: a Taylor polynomial below
 * 1/8, where the omitted rest is under x^10/11! < 2.4e-17, expm1 above.
 */
export const phi1 = (x: number): number =>
  x < SERIES_LIMIT
    ? 1 -
      (x / 2) *
        (1 -
          (x / 3) *
            (1 -
              (x / 4) * (1 - (x / 5) * (1 - (x / 6) * (1 - (x / 7) * (1 - (x / 8) * (1 - (x / 9) * (1 - x / 10))))))))
    : -Math.expm1(-x) / x;

/** φ2(x) = (1 − φ1(x))/x, ½ at 0. x ≥ 0. The omitted rest of the series is under x^10/12!. */
export const phi2 = (x: number): number =>
  x < SERIES_LIMIT
    ? 0.5 *
      (1 -
        (x / 3) *
          (1 -
            (x / 4) *
              (1 -
                (x / 5) *
                  (1 - (x / 6) * (1 - (x / 7) * (1 - (x / 8) * (1 - (x / 9) * (1 - (x / 10) * (1 - x / 11)))))))))
    : (1 - phi1(x)) / x;

/** −ln(1 − y)/y, 1 at 0. y < 1. */
const logRatio = (y: number): number => (y === 0 ? 1 : -Math.log1p(-y) / y);

/**
 * Level after `days`, kg, never below 0. `netKgPerDay` is c − f. One form for all k ≥ 0, so that no digits are lost
 * as k → 0. Source: linear first-order equation, as the exponentially decaying stock of Ghare and Schrader (1963).
 */
export const levelAfter = (massKg: number, kPerDay: number, netKgPerDay: number, days: number): number => {
  const level = massKg - (kPerDay * massKg + netKgPerDay) * days * phi1(kPerDay * days);
  return level > 0 ? level : 0;
};

/**
 * Days until the level passes `targetKg`, from `massKg`; null: never. 0 when it is there already. A target is passed
 * only in the direction in which the level runs. The stop at 0 counts: a target below 0 is never passed.
 */
export const daysToLevel = (massKg: number, kPerDay: number, netKgPerDay: number, targetKg: number): number | null => {
  if (massKg === targetKg) return 0;
  if (targetKg < 0) return null;
  const fallKgPerDay = kPerDay * massKg + netKgPerDay;
  if (fallKgPerDay === 0) return null;
  const span = (massKg - targetKg) / fallKgPerDay;
  const y = kPerDay * span;
  return span > 0 && y < 1 ? span * logRatio(y) : null;
};

/** Days until the tank is empty, null: never. Source: Ghare and Schrader (1963), t = ln(1 + k·m/c)/k. */
export const daysToEmpty = (massKg: number, kPerDay: number, netKgPerDay: number): number | null =>
  netKgPerDay > 0 ? daysToLevel(massKg, kPerDay, netKgPerDay, 0) : null;

/** ∫ level dt over `days`, kg·day, with the stop at 0. */
export const levelIntegral = (massKg: number, kPerDay: number, netKgPerDay: number, days: number): number => {
  const empty = daysToEmpty(massKg, kPerDay, netKgPerDay);
  const span = empty !== null && empty < days ? empty : days;
  const x = kPerDay * span;
  return span * (massKg * phi1(x) - netKgPerDay * span * phi2(x));
};

/**
 * Mass lost over `days`, kg: ∫(k·m + c) dt while there is something, and all that flows in while the tank is empty.
 * `fKgPerDay` ≥ 0. Equals level before + inflow − level after.
 */
export const lossOver = (
  massKg: number,
  kPerDay: number,
  cKgPerDay: number,
  fKgPerDay: number,
  days: number,
): number => {
  const empty = daysToEmpty(massKg, kPerDay, cKgPerDay - fKgPerDay);
  const span = empty !== null && empty < days ? empty : days;
  const x = kPerDay * span;
  const integral = span * (massKg * phi1(x) - (cKgPerDay - fKgPerDay) * span * phi2(x));
  return kPerDay * integral + cKgPerDay * span + fKgPerDay * (days - span);
};

/** Lowest and highest level over `days`: the level runs one way, so they stand at the ends. kg */
export const levelRange = (
  massKg: number,
  kPerDay: number,
  netKgPerDay: number,
  days: number,
): { readonly lowestKg: number; readonly highestKg: number } => {
  const end = levelAfter(massKg, kPerDay, netKgPerDay, days);
  return { lowestKg: Math.min(massKg, end), highestKg: Math.max(massKg, end) };
};
