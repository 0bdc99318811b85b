/** How the marks of a level chart are drawn on screen and on paper: the same marks, for other eyes and other room. */
import type { TextSize } from "../shape.ts";

export interface LevelLook {
  /** Figures of the mass axis; names of lines. */
  readonly text: TextSize;
  readonly name: TextSize;
  /** From the plot to the figures. */
  readonly figureGap: number;
  readonly rule: number;
  readonly limit: number;
  readonly reserveDash: readonly number[];
  /** Not said: drawn through, over the zone that cannot be drawn. */
  readonly heelDash?: readonly number[];
  /** Beyond maximum fill and heel: hatched, or left bare where there is no room for it. */
  readonly isZoned: boolean;
  /** Under past and forecast: tinted and ruled, or left bare. */
  readonly isTinted: boolean;
  readonly past: number;
  /** Where the past rests on events without a record. */
  readonly assumedDash: readonly number[];
  readonly forecast: number;
  /** Not said: drawn through, told from the past by the ruling under it. */
  readonly forecastDash?: readonly number[];
  readonly compared: number;
  readonly comparedDash?: readonly number[];
  /** The median of the runs of the risk; 0: not drawn. */
  readonly median: number;
  readonly reading: {
    readonly radius: number;
    readonly edge: number;
    readonly bar: number;
    /** Half the width of the bar's ends; 0: it has none. */
    readonly cap: number;
    /** Nearer than this to the later one it is left out: a caterpillar says no more than a few points. 0: never. */
    readonly leastApart: number;
  };
  /** Half the length of the tick that ends an upright move; 0: it has none. */
  readonly serif: number;
  /** Height of a name at the end of a line, and how far it stands from the plot, with a leader where that is far. */
  readonly nameHeight: number;
  readonly nameGap: number;
  readonly hasLeader: boolean;
}

/** Pixels. */
export const screenLevel: LevelLook = {
  text: 11,
  name: 12,
  figureGap: 8,
  rule: 1,
  limit: 1,
  reserveDash: [5, 4],
  isZoned: true,
  isTinted: true,
  past: 2.25,
  assumedDash: [7, 3],
  forecast: 1.5,
  compared: 1.25,
  comparedDash: [1.5, 2.5],
  median: 1.25,
  reading: { radius: 3, edge: 1.25, bar: 1.25, cap: 3, leastApart: 0 },
  serif: 3,
  nameHeight: 14,
  nameGap: 16,
  hasLeader: true,
};

/** Points. */
export const paperLevel: LevelLook = {
  text: 7,
  name: 7,
  figureGap: 5,
  rule: 0.35,
  limit: 0.6,
  reserveDash: [3, 2],
  heelDash: [1, 1.5],
  isZoned: false,
  isTinted: false,
  past: 1.5,
  assumedDash: [1.2, 1.2],
  forecast: 1.1,
  forecastDash: [4, 1.5],
  compared: 0.8,
  median: 0,
  reading: { radius: 1.3, edge: 0.5, bar: 0.5, cap: 0, leastApart: 5 },
  serif: 0,
  nameHeight: 8.5,
  nameGap: 4,
  hasLeader: false,
};
