/** Speeds and times on two-body orbits. Radii are from the centre, m; `mu` is the body's, m³/s². */

/** Speed at radius r on the orbit whose apses are given, m/s (vis-viva: v² = μ(2/r − 1/a)). */
export const speedAt = (mu: number, radiusM: number, oneApsisM: number, otherApsisM: number): number =>
  Math.sqrt(mu * (2 / radiusM - 2 / (oneApsisM + otherApsisM)));

/** Speed in a circular orbit, m/s. */
export const circularSpeedAt = (mu: number, radiusM: number): number => Math.sqrt(mu / radiusM);

/** One revolution of the orbit whose apses are given, s (Kepler's third law). */
export const periodS = (mu: number, oneApsisM: number, otherApsisM: number): number =>
  2 * Math.PI * Math.sqrt(((oneApsisM + otherApsisM) / 2) ** 3 / mu);
