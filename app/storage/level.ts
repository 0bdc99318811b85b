/** The closed form of one tank's level under dm/dt = −(k·m + c) + f, stopping at 0: one step, its integrals, its crossings. */

/** Below this argument the polynomial is used; above, expm1 loses nothing. */
const WIDE = 0.5;

/**
 * φ1(x) = (1 − e^−x)/x, 1 at 0. x ≥ 0, no unit. Relative error at most 1.3 · 2^-53, below that of the expm1 form, and it
 * never rises: below ½ a near-minimax polynomial of degree 10 (multiplications only: all but the rarest steps of a
 * forecast), expm1 above.
 */
export const phi1 = (x: number): number => {
  if (x >= WIDE) return -Math.expm1(-x) / x;
  const x2 = x * x;
  // In pairs rather than one in the other: the processor then works on them side by side.
  const low = 0.5 + x * -0.16666666666666538 + x2 * (0.04166666666658176 + x * -0.008333333331155702);
  const middle = 0.0013888888604959755 + x * -0.00019841248546681163;
  const upper = 2.4800612832459925e-5 + x * -2.7529613436538965e-6;
  const top = 2.7077661631340097e-7 + x * -2.0367831165025622e-8;
  return 1 - x * (low + x2 * x2 * (middle + x2 * upper + x2 * x2 * top));
};

/** φ2(x) = (1 − φ1(x))/x, ½ at 0. x ≥ 0. Series below ½ (first term left out x^14/16!, under 2^-57), as 1 − φ1 loses digits there. */
export const phi2 = (x: number): number => {
  if (x >= 0.5) return (1 - phi1(x)) / x;
  let sum = 0;
  for (let n = 15; n >= 2; n -= 1) sum = (1 - x * sum) / n;
  return sum;
};

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
