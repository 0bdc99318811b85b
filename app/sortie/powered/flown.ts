/** What a computed descent or ascent answers. */

/** One instant of the powered flight, for plotting. Throttle is the share of full thrust of the lit engines. */
export interface PoweredSample {
  readonly seconds: number;
  readonly heightM: number;
  readonly speedMPerS: number;
  readonly upMPerS: number;
  readonly alongMPerS: number;
  readonly rangeKm: number;
  readonly throttle: number;
}

export interface Flown {
  /** All of it: manoeuvre in orbit, powered turn, steering, vertical phase. m/s */
  readonly deltaVMPerS: number;
  /** The Isp that gives the whole burn's mass ratio with that Δv (throttled phases have their own). s */
  readonly ispS: number;
  /** The manoeuvre between the circular orbit and the ellipse down to (up from) the powered turn, m/s. */
  readonly orbitChangeMPerS: number;
  /** Part of Δv spent in the vertical phase, m/s. */
  readonly verticalMPerS: number;
  /** Δv that holds the craft up instead of changing its speed: ∫ g·sin γ dt over the powered flight, m/s. */
  readonly gravityLossMPerS: number;
  /** Δv that turns the velocity instead of changing its size, m/s. */
  readonly steeringLossMPerS: number;
  /** Above the impulsive transfer with a stop (start) at the surface, m/s. */
  readonly aboveLimitMPerS: number;
  /** Height of ignition (descent) or of cut-off (ascent), m. */
  readonly turnHeightM: number;
  /** What the search found (ignition height in m, or turn from the vertical in rad): a guess for a flight much like it. */
  readonly root: number;
  /** Thrust over weight in lunar g (1.62 m/s²) when the powered turn is ignited. */
  readonly thrustToWeight: number;
  /** Duration of the powered flight without the manoeuvre in orbit, s. */
  readonly seconds: number;
  /** Share of full thrust that the vertical phase asks for, at its start and end; null: none. */
  readonly verticalThrottle: readonly [number, number] | null;
  readonly samples: readonly PoweredSample[];
}

/** How a flight is to be found: from which guess, and whether it is to be sampled for plotting. */
export interface Search {
  readonly guess: number | null;
  readonly withSamples: boolean;
}

/** The engines as a powered flight sees them. */
export interface Propulsion {
  /** Thrust of the lit engines at the throttle of the turn over the mass at its ignition, m/s². */
  readonly acceleration: number;
  /** That throttle, 0 to 1. */
  readonly throttle: number;
  /** Isp at a throttle, s. */
  readonly ispAt: (throttle: number) => number;
}
