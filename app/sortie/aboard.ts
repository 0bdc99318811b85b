/** What a tank aboard loses and gives while time passes: dm/dt = −(k·m + c + f), f the steady draw of crew and power. */

/** (e^x − 1)/x, which is 1 at x = 0, without losing digits near it. */
const growth = (x: number): number => (Math.abs(x) < 1e-5 ? 1 + x / 2 + (x * x) / 6 : Math.expm1(x) / x);

/**
 * What must be there before a stay so that `afterKg` is there at its end. Rates per day and kg/day. Where nothing is
 * asked for, nothing is needed: an empty tank has nothing to lose.
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
  return afterKg * Math.exp(x) + (cKgPerDay + drawKgPerDay) * days * growth(x);
};

/** What is there after a stay, never below 0. */
export const leftAfter = (
  beforeKg: number,
  kPerDay: number,
  cKgPerDay: number,
  drawKgPerDay: number,
  days: number,
): number => {
  const x = kPerDay * days;
  return Math.max(0, beforeKg * Math.exp(-x) - (cKgPerDay + drawKgPerDay) * days * growth(-x));
};
