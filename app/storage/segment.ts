/**
 * A segment: a stretch of time over which a tank's rate is constant, so that its level has a closed form.
 * The past is drawn from the same segments as the forecast.
 */

/** From `startAt` the level follows dm/dt = −(k·m + c) + f, from m0, until the next segment; it stops at 0. */
export interface LevelSegment {
  readonly startAt: number;
  readonly endAt: number;
  readonly m0Kg: number;
  readonly kPerDay: number;
  readonly cKgPerDay: number;
  /** Metered flow in (+) or out (−), kg/day. */
  readonly fKgPerDay: number;
}

/** One tank's (or one propellant's, summed) level over time. */
export interface LevelHistory {
  readonly tankId: string;
  readonly segments: readonly LevelSegment[];
}
