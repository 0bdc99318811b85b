/**
 * Quantiles of Student's t and of χ², for any degrees of freedom. The distribution functions are the incomplete gamma
 * and beta functions by their series and continued fractions; the quantile is found by halving, which cannot miss.
 * Sources: NIST Digital Library of Mathematical Functions 5.11.1, 8.11.4, 8.9.2, 8.17.22.
 */

/** Below this the asymptotic series of ln Γ is not used; the recurrence leads up to it. */
const STIRLING_FROM = 16;
/** Coefficients B(2k) / (2k (2k − 1)) of DLMF 5.11.1. */
const STIRLING = [1 / 12, -1 / 360, 1 / 1260, -1 / 1680, 1 / 1188, -691 / 360_360];

/** ln Γ(x), x > 0. */
const logGamma = (x: number): number => {
  let z = x;
  let below = 0;
  for (; z < STIRLING_FROM; z += 1) below += Math.log(z);
  const tail = STIRLING.reduce((sum, coefficient, k) => sum + coefficient / z ** (2 * k + 1), 0);
  return (z - 0.5) * Math.log(z) - z + 0.5 * Math.log(2 * Math.PI) + tail - below;
};

/** Terms after which a sum or a fraction has long settled, also for a hundred thousand degrees of freedom. */
const MAX_TERMS = 20_000;
const TINY = 1e-300;

/** b0 + a1/(b1 + a2/(b2 + …)) by the modified method of Lentz; `next` gives [a, b] of term n = 1, 2, …. */
const continuedFraction = (b0: number, next: (n: number) => readonly [number, number]): number => {
  let value = b0 === 0 ? TINY : b0;
  let c = value;
  let d = 0;
  for (let n = 1; n <= MAX_TERMS; n += 1) {
    const [a, b] = next(n);
    d = 1 / (b + a * d || TINY);
    c = b + a / c || TINY;
    const step = c * d;
    value *= step;
    if (Math.abs(step - 1) < Number.EPSILON) break;
  }
  return value;
};

/** The regularised incomplete gamma function P(a, x) from below, or 1 − P from above: whichever is asked, without cancelling. */
const gammaParts = (a: number, x: number): { readonly below: number; readonly above: number } => {
  const front = Math.exp(a * Math.log(x) - x - logGamma(a));
  if (x < a + 1) {
    let term = 1 / a;
    let sum = term;
    for (let n = 1; n <= MAX_TERMS && term > sum * Number.EPSILON; n += 1) {
      term *= x / (a + n);
      sum += term;
    }
    const below = front * sum;
    return { below, above: 1 - below };
  }
  const above = front / continuedFraction(x + 1 - a, (n) => [-n * (n - a), x + 2 * n + 1 - a]);
  return { below: 1 - above, above };
};

/** The regularised incomplete beta function I_x(a, b), 0 < x < 1; y = 1 − x, which the caller knows without cancelling. */
const incompleteBeta = (x: number, y: number, a: number, b: number): number => {
  // The fraction settles fast on this side of the mean; the other is its complement.
  if (x > (a + 1) / (a + b + 2)) return 1 - incompleteBeta(y, x, b, a);
  const front = Math.exp(logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log(y)) / a;
  const fraction = continuedFraction(1, (n) => {
    const m = Math.floor(n / 2);
    const a2m = a + 2 * m;
    return [n % 2 === 0 ? (m * (b - m) * x) / ((a2m - 1) * a2m) : -((a + m) * (a + b + m) * x) / (a2m * (a2m + 1)), 1];
  });
  return front / fraction;
};

/** The x > 0 at which a rising `isBelow` changes from true to false, to the last bit. */
const turningPoint = (isBelow: (x: number) => boolean): number => {
  let high = 1;
  while (isBelow(high)) high *= 2;
  let low = high / 2;
  while (low > 0 && !isBelow(low)) low /= 2;
  high = low * 2;
  for (;;) {
    const middle = low + (high - low) / 2;
    if (middle <= low || middle >= high) return high;
    if (isBelow(middle)) low = middle;
    else high = middle;
  }
};

const refuse = (probability: number, degreesOfFreedom: number): void => {
  if (!(probability > 0 && probability < 1 && degreesOfFreedom > 0 && Number.isFinite(degreesOfFreedom)))
    throw new RangeError("a quantile needs a probability between 0 and 1 and at least some degrees of freedom");
};

/**
 * The value that χ² with `degreesOfFreedom` (> 0) stays below with this probability (between 0 and 1, neither of them).
 * Throws a RangeError outside: a fault of the caller.
 */
export const chiSquareQuantile = (probability: number, degreesOfFreedom: number): number => {
  refuse(probability, degreesOfFreedom);
  const isBelow = (x: number): boolean => {
    const { below, above } = gammaParts(degreesOfFreedom / 2, x / 2);
    return probability < 0.5 ? below < probability : above > 1 - probability;
  };
  return turningPoint(isBelow);
};

/** The same for Student's t. */
export const tQuantile = (probability: number, degreesOfFreedom: number): number => {
  refuse(probability, degreesOfFreedom);
  if (probability === 0.5) return 0;
  const tail = Math.min(probability, 1 - probability);
  // Both tails together: I_x(ν/2, ½) with x = ν/(ν + t²).
  const isBelow = (t: number): boolean => {
    const sum = degreesOfFreedom + t * t;
    return incompleteBeta(degreesOfFreedom / sum, (t * t) / sum, degreesOfFreedom / 2, 0.5) > 2 * tail;
  };
  return probability < 0.5 ? -turningPoint(isBelow) : turningPoint(isBelow);
};
