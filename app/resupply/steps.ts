/**
 * The exact engine as the step of a label programme: all that this folder asks of the engine stands here.
 *
 * Under the goal that every sortie loads as planned, whatever does not hang on flights (rates, orders of tanks, landers,
 * returns due, the place in the list of events) is the same for all labels at an instant. It is taken from one run in
 * which nothing lacks and put back; the label is written in, and the engine runs to the next instant. A label is the
 * level of every depot tank, what is left of each metered handover under way, and the load of each flight under way from
 * another depot. More in any part never makes less of any part later: the ground for dropping and joining labels.
 */
import { emptyDrawingLines } from "../forecast/flight-step.ts";
import { FLOWS, MASS, TANK_WIDTH, WAITING } from "../forecast/layout.ts";
import { redirectIfRunning, resumeFlow, stopFlows } from "../forecast/metered-flow.ts";
import { begin, createEngine, proceed } from "../forecast/propagate.ts";
import { needWantedKg } from "../forecast/read-run.ts";
import { STATUS } from "../forecast/run.ts";
import { advance } from "../forecast/tank-step.ts";
import { DAY_MS } from "../ground/quantity.ts";
import type { Candidates } from "./candidates.ts";

/** Boundaries lie this much, ms, before their instant: nothing happens so close to another. */
export const JUST_MS = 0.001;
/** More than any plan draws, kg. */
const PLENTY_KG = 1e12;

/** What the parts of a label are, boundary by boundary; the boundary after the last window is the horizon. */
export interface LabelForm {
  readonly size: Int32Array;
  readonly mostSize: number;
  /** Tanks come first, in every label. */
  readonly tanks: Int32Array;
  /** Lines of the handovers under way, then of the flights under way. */
  readonly restLines: readonly (readonly number[])[];
  readonly wayLines: readonly (readonly number[])[];
  /** What one unit of difference is measured against, by part. */
  readonly scale: readonly Float64Array[];
  /** Pool in which a part counts; −1: in none. */
  readonly poolOf: readonly Int32Array[];
}

export interface Steps {
  readonly form: LabelForm;
  /** The label before the first instant; null: a sortie before it fails. */
  readonly start: Float64Array | null;
  /** Kept flights that arrive in each window, as compiled. */
  readonly keptIn: readonly (readonly number[])[];
  /**
   * Runs a window from the label at `from` with these candidates flying and of all flights those in `lost` lost; writes
   * the next label. False: a sortie of the window fails, and nothing is written.
   */
  step(
    window: number,
    label: Float64Array,
    from: number,
    flights: readonly number[],
    next: Float64Array,
    to: number,
    lost: readonly number[],
  ): boolean;
  /** Runs from the opening to the first instant with kept flights lost; null: a sortie fails. */
  startWithout(lostKept: readonly number[]): Float64Array | null;
  /** Kept flights that arrive before the first instant. */
  readonly keptBefore: readonly number[];
  /** A sortie whose lander is away at its loading whatever flies; −1: none. */
  readonly awaySortie: number;
  /** What each need draws where nothing lacks, kg. */
  readonly wantedKg: Float64Array;
}

const labelForm = (candidates: Candidates, edges: Float64Array): LabelForm => {
  const { compiled: plan, windows } = candidates;
  const mayCross = [...plan.lineFlight.keys()].filter(
    (line) => (plan.lineRateKgPerDay[line] ?? 0) > 0 || (plan.lineOriginPool[line] ?? -1) >= 0,
  );
  const tanks = Int32Array.from([...plan.tankPool.keys()].filter((tank) => (plan.tankPool[tank] ?? -1) >= 0));
  const size = new Int32Array(windows + 1);
  const restLines: number[][] = [];
  const wayLines: number[][] = [];
  const scale: Float64Array[] = [];
  const poolOf: Int32Array[] = [];
  for (let boundary = 0; boundary <= windows; boundary += 1) {
    const edge = edges[boundary] ?? 0;
    const rest: number[] = [];
    const way: number[] = [];
    // At the horizon nothing is under way any more.
    for (const line of boundary < windows ? mayCross : []) {
      const flight = plan.lineFlight[line] ?? 0;
      const arriveAt = plan.flightArriveAt[flight] ?? 0;
      const endAt = arriveAt + (plan.flightBerthMs[flight] ?? 0);
      if ((plan.lineRateKgPerDay[line] ?? 0) > 0 && arriveAt <= edge && endAt > edge) rest.push(line);
      const isUnderWay = (plan.flightDepartAt[flight] ?? 0) <= edge && arriveAt > edge;
      if ((plan.lineOriginPool[line] ?? -1) >= 0 && isUnderWay) way.push(line);
    }
    restLines.push(rest);
    wayLines.push(way);
    size[boundary] = tanks.length + rest.length + way.length;
    const loads = [...rest, ...way].map((line) => Math.max(1, plan.lineLoadedKg[line] ?? 0));
    scale.push(Float64Array.from([...[...tanks].map((tank) => Math.max(1, plan.tankMaximumKg[tank] ?? 0)), ...loads]));
    const pools = [
      ...[...tanks].map((tank) => plan.tankPool[tank] ?? -1),
      ...rest.map((line) => plan.linePool[line] ?? -1),
    ];
    poolOf.push(Int32Array.from([...pools, ...way.map(() => -1)]));
  }
  return { size, mostSize: Math.max(...size), tanks, restLines, wayLines, scale, poolOf };
};

export const makeSteps = (candidates: Candidates): Steps => {
  const { compiled: plan, windows, isCandidate, problem } = candidates;
  const { run, input } = createEngine(plan);
  const isLost = input.flightIsLost;
  const isOff = input.flightIsOff;
  for (let flight = 0; flight < isCandidate.length; flight += 1) if (isCandidate[flight] === 1) isOff[flight] = 1;
  const edges = new Float64Array(windows + 1);
  for (let window = 0; window < windows; window += 1) edges[window] = (problem.instants[window] ?? 0) - JUST_MS;
  edges[windows] = plan.horizonAt;
  const form = labelForm(candidates, edges);
  const { tanks } = form;
  /** Candidates from another depot that may be under way at a boundary; with nothing aboard they bring nothing. */
  const wayFlights = form.wayLines.map((lines) => {
    const flights = new Set(lines.map((line) => plan.lineFlight[line] ?? 0));
    return [...flights].filter((flight) => isCandidate[flight] === 1);
  });

  /** What a run is at each boundary, but for the label: the part of the state that a run begins anew, in which all lies that a step goes by. */
  const common = new Float64Array(run.state.buffer, 0, run.image.length / Float64Array.BYTES_PER_ELEMENT);
  const shared: Float64Array[] = [];
  const isMetered = plan.lineRateKgPerDay.some((rate) => rate > 0);
  begin(run);
  for (const tank of tanks) run.tanks[TANK_WIDTH * tank + MASS] = PLENTY_KG;
  for (const edge of edges) {
    proceed(run, edge);
    for (let row = 0; row < run.tanks.length; row += TANK_WIDTH) advance(run, run.tanks, row, edge);
    shared.push(common.slice());
  }
  const awaySortie = run.sortieLanderAway.indexOf(1);
  const wantedKg = Float64Array.from(plan.needTank, (_, need) => needWantedKg(run, need));

  /** The window of an instant: −1 before the first. */
  const windowOf = (at: number): number => {
    let window = -1;
    while (window + 1 < windows && at > (edges[window + 1] ?? 0)) window += 1;
    return window;
  };
  const sortiesIn: number[][] = Array.from({ length: windows + 1 }, () => []);
  plan.sortieIds.forEach((_, sortie) => {
    if (plan.sortieIsOut[sortie] === 0) sortiesIn[windowOf(plan.sortieLoadAt[sortie] ?? 0) + 1]?.push(sortie);
  });
  const keptBy: number[][] = Array.from({ length: windows + 1 }, () => []);
  plan.flightIds.forEach((_, flight) => {
    const at = plan.flightArriveAt[flight] ?? Infinity;
    if (isCandidate[flight] === 0 && at <= plan.horizonAt) keptBy[windowOf(at) + 1]?.push(flight);
  });

  const worst = problem.goal === "supplied" ? STATUS.supplied : STATUS.thin;
  const holds = (window: number): boolean => {
    const list = sortiesIn[window + 1] as number[];
    for (let n = 0; n < list.length; n += 1) if ((run.sortieStatus[list[n] as number] as number) > worst) return false;
    return true;
  };

  const leftOf = (line: number, edge: number): number => {
    for (let n = 0; n < (run.counters[FLOWS] as number); n += 1) {
      if (run.flows[n] !== line) continue;
      const share = (plan.lineKeep[line] as number) * (run.flowShare[line] as number);
      const days = (edge - (run.poolSettledAt[plan.linePool[line] as number] as number)) / DAY_MS;
      return Math.max(0, (run.flowLeftKg[line] as number) - (plan.lineRateKgPerDay[line] as number) * share * days);
    }
    return 0;
  };

  const read = (boundary: number, label: Float64Array, to: number): void => {
    const edge = edges[boundary] as number;
    let part = to;
    for (let n = 0; n < tanks.length; n += 1, part += 1)
      label[part] = advance(run, run.tanks, TANK_WIDTH * (tanks[n] as number), edge);
    const rest = form.restLines[boundary] as readonly number[];
    for (let n = 0; n < rest.length; n += 1, part += 1) label[part] = leftOf(rest[n] as number, edge);
    const way = form.wayLines[boundary] as readonly number[];
    for (let n = 0; n < way.length; n += 1, part += 1) {
      const line = way[n] as number;
      const isGone = isLost[plan.lineFlight[line] as number] === 1;
      label[part] = isGone ? 0 : (run.lineDeliverableKg[line] as number);
    }
  };

  const restore = (window: number): void => {
    common.set(shared[window] as Float64Array);
    if (isMetered) stopFlows(run);
    run.counters[WAITING] = 0;
    // One that finds nothing at its depot leaves what it loads as it was.
    if (run.drawingLines.length > 0) emptyDrawingLines(run);
  };

  const write = (window: number, label: Float64Array, from: number): void => {
    const edge = edges[window] as number;
    let part = from;
    for (let n = 0; n < tanks.length; n += 1, part += 1)
      run.tanks[TANK_WIDTH * (tanks[n] as number) + MASS] = label[part] as number;
    const rest = form.restLines[window] as readonly number[];
    for (let n = 0; n < rest.length; n += 1, part += 1) {
      const left = label[part] as number;
      if (left <= 0) continue;
      const line = rest[n] as number;
      const flight = plan.lineFlight[line] as number;
      const endAt = (plan.flightArriveAt[flight] as number) + (plan.flightBerthMs[flight] as number);
      resumeFlow(run, line, left, edge, endAt);
    }
    const way = form.wayLines[window] as readonly number[];
    for (let n = 0; n < way.length; n += 1, part += 1) run.lineDeliverableKg[way[n] as number] = label[part] as number;
    if (isMetered) for (let pool = 0; pool < run.poolFlowCount.length; pool += 1) redirectIfRunning(run, pool, edge);
  };

  const startWithout = (lostKept: readonly number[]): Float64Array | null => {
    for (const flight of lostKept) isLost[flight] = 1;
    begin(run);
    proceed(run, edges[0] as number);
    const label = new Float64Array(form.size[0] ?? 0);
    const isHeld = holds(-1);
    if (isHeld) read(0, label, 0);
    for (const flight of lostKept) isLost[flight] = 0;
    return isHeld ? label : null;
  };

  return {
    form,
    start: startWithout([]),
    startWithout,
    keptBefore: keptBy[0] ?? [],
    keptIn: keptBy.slice(1),
    awaySortie,
    wantedKg,
    step: (window, label, from, flights, next, to, lost) => {
      const underWay = wayFlights[window] as readonly number[];
      restore(window);
      write(window, label, from);
      for (let n = 0; n < flights.length; n += 1) isOff[flights[n] as number] = 0;
      for (let n = 0; n < underWay.length; n += 1) isOff[underWay[n] as number] = 0;
      for (let n = 0; n < lost.length; n += 1) isLost[lost[n] as number] = 1;
      proceed(run, edges[window + 1] as number);
      const isHeld = holds(window);
      if (isHeld) read(window + 1, next, to);
      for (let n = 0; n < flights.length; n += 1) isOff[flights[n] as number] = 1;
      for (let n = 0; n < underWay.length; n += 1) isOff[underWay[n] as number] = 1;
      for (let n = 0; n < lost.length; n += 1) isLost[lost[n] as number] = 0;
      return isHeld;
    },
  };
};
