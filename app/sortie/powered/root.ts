/** A root in a bracket, for functions that cost an integration each. */

/** Half the widths of the brackets tried around a guess, as shares of the whole range. */
const REACHES = [0.005, 0.04] as const;

export interface Bracket {
  readonly low: number;
  readonly high: number;
  readonly valueAtLow: number;
  readonly valueAtHigh: number;
}

/**
 * The root of a continuous function between two points of opposite sign, by the Illinois variant of false position
 * (never leaves the bracket). Stops when the function is within `tolerance` of 0, or the bracket cannot shrink.
 */
export const rootInBracket = (f: (x: number) => number, bracket: Bracket, tolerance: number): number => {
  let { low: a, high: b, valueAtLow: fa, valueAtHigh: fb } = bracket;
  if (Math.abs(fa) <= tolerance) return a;
  if (Math.abs(fb) <= tolerance) return b;
  let side = 0;
  for (let step = 0; step < 200; step++) {
    const secant = (a * fb - b * fa) / (fb - fa);
    // Every tenth step halves the bracket, so that a very bent function cannot stall it.
    const x = step % 10 === 9 || !(secant > Math.min(a, b) && secant < Math.max(a, b)) ? (a + b) / 2 : secant;
    const fx = f(x);
    if (Math.abs(fx) <= tolerance || x === a || x === b) return x;
    if (fx > 0 === fb > 0) {
      b = x;
      fb = fx;
      if (side === 1) fa /= 2;
      side = 1;
    } else {
      a = x;
      fa = fx;
      if (side === -1) fb /= 2;
      side = -1;
    }
  }
  return (a + b) / 2;
};

/**
 * A bracket of the root within [low, high] for a function that rises from low to high (or falls): a narrow one around a
 * guess where the sign changes there, else the whole; null: the sign does not change at all.
 */
export const bracketAround = (
  f: (x: number) => number,
  low: number,
  high: number,
  guess: number | null,
): Bracket | null => {
  const between = (a: number, b: number): Bracket | null => {
    const [valueAtLow, valueAtHigh] = [f(a), f(b)];
    const isCrossed = valueAtLow <= 0 === valueAtHigh >= 0;
    return isCrossed ? { low: a, high: b, valueAtLow, valueAtHigh } : null;
  };
  for (const share of guess === null ? [] : REACHES) {
    const reach = share * (high - low);
    const near = between(Math.max(low, (guess ?? low) - reach), Math.min(high, (guess ?? high) + reach));
    if (near !== null) return near;
  }
  return between(low, high);
};
