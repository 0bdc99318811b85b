/**
 * How the state of a run lies in memory: one row of numbers a tank, what every step touches together in one cache line.
 * Rows are named by their offset (tank × TANK_WIDTH), so that a step costs no multiplication. Masses in kg, instants in
 * ms, rates per day.
 */

/**
 * Offsets of rows, and numbers of what has rows, stay below this. Where the loop reads one from an array it masks it
 * with this: no number changes, but the compiler then knows that it is not negative and that a sum with it does not
 * overflow, and leaves out the checks.
 */
export const ROWS = 0x0fff_ffff;

export const TANK_WIDTH = 16;
/** Level, and the instant that it holds at. */
export const MASS = 0;
export const AT = 1;
/** The loss rate in force, factor and outage included: dm/dt = −(k·m + c) + flow. */
export const K = 2;
export const C = 3;
export const LOST = 4;
/** A step beyond this instant takes the noted way: it passes what is watched; −Infinity where something flows in, or the run is traced. */
export const WATCH = 5;
export const MAXIMUM = 6;
export const HEEL = 7;
/** What flows in. */
export const FLOW = 8;
/** Index of the next watched instant. */
export const WATCHED = 9;
/** Factor on the loss rate, the plan's rate in force, and the rate while the cooler is down (0 and 0: it runs). */
export const FACTOR = 10;
export const PLAN_K = 11;
export const PLAN_C = 12;
export const DOWN_K = 13;
export const DOWN_C = 14;

export const RECORD_WIDTH = 3;
/** By tank: recorded metered inflow, a part of FLOW; since when; and what records changed of the level. */
export const RECORDED_FLOW = 0;
export const FLOW_SINCE = 1;
export const CHANGED = 2;

export const NEED_WIDTH = 8;
/** What a need asks for. */
export const LOAD = 0;
export const CHILL = 1;
export const KEEP = 2;
export const RESERVE = 3;
export const RETURNED = 4;

export const SURVEY_WIDTH = 6;
/** What a need found: at the planned loading, and AGAIN further at the last try after it. */
export const WANTED = 0;
export const FREE = 1;
export const ABOARD = 2;
export const AGAIN = 3;

export const EVENT_WIDTH = 4;
/** Events are named by the offset of their row as well. What happens; to which flight, sortie, rate change; and its lines or needs from … to (a rate change: the row of its tank). */
export const KIND = 0;
export const INDEX = 1;
export const FROM = 2;
export const TO = 3;

export const SORTIE_WIDTH = 4;
/** Return − loading is added to the loading in two steps, as the plan has them. */
export const LOAD_AT = 0;
export const RETURN_AT = 1;
export const HOLD_MS = 2;
/** 0: it may leave at any time. */
export const HAS_WINDOWS = 3;

/** Counters of a run. */
export const NEXT = 0;
export const DUE = 1;
/** Sorties that wait for a delivery at a depot without windows. */
export const WAITING = 2;
export const FLOWS = 3;
/** Pool of the next change of flow. */
export const FLOW_POOL = 4;
/** Number of the order for which NEXT counts. */
export const ORDER = 5;
/** Lines that could not give all. */
export const LEFT = 6;
export const COUNTERS = 7;

/** Instants of a run: up to which everything has happened, and of the next change of flow. */
export const REACHED = 0;
export const FLOW_AT = 1;
/** The instant of what happens. A number of this kind that is handed to a function would have to be boxed. */
export const NOW = 2;
export const CLOCKS = 3;
