/** The course of a run, written down as it goes: stretches of level, and what each tank gave or took. */
import type { CompiledPlan } from "./compiled-plan.ts";

/** What a flight line gave to a tank. */
export interface Taken {
  readonly line: number;
  readonly tank: number;
  massKg: number;
}

/** Plain growing columns; indices are those of the compiled plan. One trace is for one run. */
export interface Trace {
  /** Stretches: tank, start, end, level at the start, k, c, f. */
  readonly tank: number[];
  readonly startAt: number[];
  readonly endAt: number[];
  readonly m0: number[];
  readonly k: number[];
  readonly c: number[];
  readonly f: number[];
  /** Taken into a tank from a flight line, by at-once transfer or metered flow. */
  readonly taken: Taken[];
  /** Metered handovers, stretch by stretch: what a line gave to a tank, evenly, from one instant to another. */
  readonly course: {
    readonly line: number;
    readonly tank: number;
    readonly fromAt: number;
    readonly untilAt: number;
    readonly massKg: number;
  }[];
  /** Where a metered handover filled a tank. */
  readonly full: { readonly tank: number; readonly at: number }[];
  /** The row of `taken` for a line and a tank. */
  readonly takenBy: Map<number, Taken>;
  /** Drawn from a tank for a flight line (origin) or a sortie's need. */
  readonly drawn: {
    readonly by: "line" | "need";
    readonly index: number;
    readonly tank: number;
    readonly massKg: number;
  }[];
  /** By line: taken in all, end of the handover (NaN: has not arrived), and drawn for it where it comes from. */
  readonly lineTakenKg: Float64Array;
  readonly lineEndAt: Float64Array;
  readonly lineOriginDrawnKg: Float64Array;
  readonly lineOriginChillKg: Float64Array;
}

export const createTrace = (plan: CompiledPlan): Trace => {
  const lines = plan.linePropellantIds.length;
  return {
    tank: [],
    startAt: [],
    endAt: [],
    m0: [],
    k: [],
    c: [],
    f: [],
    taken: [],
    course: [],
    full: [],
    takenBy: new Map(),
    drawn: [],
    lineTakenKg: new Float64Array(lines),
    lineEndAt: new Float64Array(lines).fill(Number.NaN),
    lineOriginDrawnKg: new Float64Array(lines),
    lineOriginChillKg: new Float64Array(lines),
  };
};

/** Room for tanks in the key of a line and a tank. */
const TANKS = 2 ** 20;

/** Adds to what a line gave to a tank. */
export const traceTaken = (trace: Trace, line: number, tank: number, massKg: number): void => {
  const known = trace.takenBy.get(line * TANKS + tank);
  if (known !== undefined) {
    known.massKg += massKg;
    return;
  }
  const row = { line, tank, massKg };
  trace.takenBy.set(line * TANKS + tank, row);
  trace.taken.push(row);
};
