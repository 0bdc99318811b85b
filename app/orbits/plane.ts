/** Turning orbit planes: what a turn costs alone or together with a change of speed. */

const RAD = Math.PI / 180;

/** sin²(x/2) of an angle in degrees: keeps its digits where 1 − cos loses them. */
const halfSineSquared = (deg: number): number => Math.sin((deg * RAD) / 2) ** 2;

/** Δv of one burn that changes speed and turns the plane, m/s: the third side of the triangle of the two speeds. */
export const turningBurnMPerS = (beforeMPerS: number, afterMPerS: number, turnDeg: number): number =>
  Math.sqrt((afterMPerS - beforeMPerS) ** 2 + 4 * beforeMPerS * afterMPerS * halfSineSquared(turnDeg));

/** Δv of turning the plane at a speed that stays, m/s. */
export const planeChangeMPerS = (speedMPerS: number, turnDeg: number): number =>
  2 * speedMPerS * Math.sin((turnDeg * RAD) / 2);
