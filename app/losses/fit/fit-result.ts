/** What a fit of a loss rate answers, as plain data. */
import type { FittedPart } from "./observations.ts";

export interface Interval {
  readonly low: number;
  readonly high: number;
}

/** One reading beside the fit. */
export interface FittedReading {
  readonly readingId: string;
  readonly at: number;
  readonly massKg: number;
  readonly sigmaKg: number;
  readonly fittedKg: number;
  /** Reading − fit. */
  readonly residualKg: number;
  /** The residual in units of its own standard deviation (the reading's σ, less what the fit took of it). */
  readonly residualInSigma: number;
  /** Beyond 4 σ. It still counts: the planner decides. */
  readonly isFlagged: boolean;
}

/** The fitted level at an instant with its 95 % interval, kg. */
export interface FittedLevel {
  readonly at: number;
  readonly levelKg: number;
  readonly lowKg: number;
  readonly highKg: number;
  /** Place of the stretch: levels of two stretches are not joined. */
  readonly stretch: number;
}

/** A reading of the span that tells of another rate. */
export interface ReadingApart {
  readonly readingId: string;
  readonly at: number;
  readonly massKg: number;
  readonly sigmaKg: number;
}

export interface FitResult {
  readonly fitted: FittedPart;
  readonly kPerDay: number;
  readonly cKgPerDay: number;
  /** Level at the first reading. */
  readonly m0Kg: number;
  /** 95 %; null for what was held. May reach below 0 where the readings say so. */
  readonly kInterval: Interval | null;
  readonly cInterval: Interval | null;
  /** k·m + c at the mean fitted level, with its interval: what the readings tell best. kg/day */
  readonly meanLevelKg: number;
  readonly lossKgPerDay: number;
  readonly lossInterval: Interval;
  /** Of the estimates of k and c; null unless both were fitted. Near −1: they can hardly be told apart. */
  readonly correlation: number | null;
  readonly readings: readonly FittedReading[];
  readonly apart: readonly ReadingApart[];
  /** Stretches under the fitted rate; the level begins anew in each. */
  readonly stretches: number;
  readonly flagged: number;
  /** Readings less fitted parameters (the level at the start of each stretch is one). */
  readonly degreesOfFreedom: number;
  /** Null with no degree of freedom. */
  readonly reducedChiSquare: number | null;
  /** Where 95 % of sound fits lie, for so many degrees of freedom. */
  readonly reducedChiSquareRange: Interval | null;
  readonly firstAt: number;
  readonly lastAt: number;
  /** For drawing: the fitted level over the span, at the readings and between, both sides of every transfer. */
  readonly curve: readonly FittedLevel[];
  /** In sentences: what a planner should know. */
  readonly messages: readonly string[];
  /** null: it may be adopted; else why not. */
  readonly cannotAdoptBecause: string | null;
}
