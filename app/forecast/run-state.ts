/** The room for runs of one plan: the whole state in one buffer, results as views of it, and the plan's numbers in rows. */
import type { CompiledPlan } from "./compiled-plan.ts";
import { type EventTable, createEventTable } from "./event-table.ts";
import {
  AT,
  CLOCKS,
  COUNTERS,
  FLOW_AT,
  HAS_WINDOWS,
  HEEL,
  HOLD_MS,
  LOAD_AT,
  MAXIMUM,
  NEED_WIDTH,
  PLAN_C,
  PLAN_K,
  REACHED,
  RECORD_WIDTH,
  RESERVE,
  RETURN_AT,
  SORTIE_WIDTH,
  SURVEY_WIDTH,
  TANK_WIDTH,
  WATCH,
} from "./layout.ts";
import { OUTCOME, type RunInput } from "./run.ts";
import type { Trace } from "./trace.ts";

/** Row of a need's tanks: the lander's tank, and the depot's (as an offset; −1: none; −2 − pool: several). */
export const NEED_TANKS = 2;

/** State and results of a run; made once, overwritten by each run. */
export interface Run {
  readonly plan: CompiledPlan;
  readonly table: EventTable;

  /** All that a run changes, in one piece: a copy of it is the state of the run. */
  readonly state: Uint8Array;
  /** What each run begins with: the first part of the state. */
  readonly image: Uint8Array;

  readonly tanks: Float64Array;
  /** What is recorded of tanks within the run: rows of RECORD_WIDTH. */
  readonly records: Float64Array;
  readonly clocks: Float64Array;
  readonly counters: Int32Array;
  /** Tanks of each pool (offsets) in order of filling and of drawing, laid out as poolTanks. */
  readonly fillOrder: Int32Array;
  readonly drawOrder: Int32Array;
  /** What this run has made due, by instant and number; one of Infinity ends the list. */
  readonly dueAt: Float64Array;
  readonly dueNumber: Int32Array;
  readonly landerIsAway: Uint8Array;
  /** Results by sortie. loadedAt NaN: not loaded; landerAway 1: its lander was away at the planned loading. */
  readonly sortieStatus: Uint8Array;
  readonly sortieOutcome: Uint8Array;
  readonly sortieLoadedAt: Float64Array;
  readonly sortieLanderAway: Uint8Array;
  /** By need: rows of SURVEY_WIDTH. Without meaning for a sortie that has not tried to load. */
  readonly surveys: Float64Array;
  /** By need: what left beyond it, and comes home with what is left of it. */
  readonly surplusKg: Float64Array;

  /** Running metered handovers (lines) and, per line, what is still to flow into the tanks and its throttling. */
  readonly flows: Int32Array;
  readonly flowLeftKg: Float64Array;
  readonly flowShare: Float64Array;
  readonly flowEndAt: Float64Array;
  /** Next change of a pool's metered flow, and the tank (fills) or line (ends) that it concerns; −1: none. */
  readonly poolFlowAt: Float64Array;
  readonly poolFlowTank: Int32Array;
  readonly poolFlowLine: Int32Array;
  readonly poolFlowCount: Int32Array;
  readonly poolSettledAt: Float64Array;

  /** What each line brings; of lines that draw at a depot, as this run goes. */
  readonly lineLoadedKg: Float64Array;
  readonly lineArrivedKg: Float64Array;
  readonly lineOfferedKg: Float64Array;
  /** What could be taken of what is offered, after chilldown and loss. */
  readonly lineDeliverableKg: Float64Array;
  /** The same at the beginning of a run. */
  readonly begunDeliverableKg: Float64Array;
  readonly drawingLines: Int32Array;
  /** Lines of which an arrival could not give all, and how much of it would have reached the tanks. */
  readonly leftLine: Int32Array;
  readonly leftKg: Float64Array;

  /** The plan's numbers in rows, with what the run's setters changed. */
  readonly needs: Float64Array;
  readonly needTanks: Int32Array;
  readonly needSortie: Int32Array;
  readonly sorties: Float64Array;
  readonly lineTank: Int32Array;
  readonly lineWantedKg: Float64Array;
  readonly lineChillKg: Float64Array;
  readonly lineKeep: Float64Array;
  /** Pool of a tank that shares one; −1: alone. */
  readonly sharedPool: Int32Array;
  readonly sharesTanks: boolean;
  readonly outSorties: Int32Array;

  readonly input: RunInput;
  /** Slips in force, by slot. */
  readonly slipMs: Float64Array;
  /** The known events of this run in order: instants and numbers (−1 − n: outage n), ended by one of Infinity. */
  queueAt: Float64Array;
  queueNumber: Int32Array;
  /** Counts up when the order changes. */
  order: number;
  /** Outages that the order holds. */
  outages: number;
  outageAt: Float64Array;
  outageOrder: Int32Array;
  outageTank: Int32Array;
  outageK: Float64Array;
  outageC: Float64Array;

  /** Instants at which the levels of depot tanks are noted, and the levels: tank × instants + place. */
  watchAt: Float64Array | null;
  watchedKg: Float64Array;
  /** Where the course is written down; null: results only. */
  trace: Trace | null;
}

/** Gives the parts of a state, one after the other; doubles before integers before bytes, so that all lie as they must. */
interface Carver {
  doubles(length: number): Float64Array;
  integers(length: number): Int32Array;
  bytes(length: number): Uint8Array;
}

/** The parts of a state. `imageEnd` is called where the part ends that each run begins anew. */
const carve = (plan: CompiledPlan, isDrawing: boolean, take: Carver, imageEnd: () => void) => {
  const pools = plan.poolKeys.length;
  const sorties = plan.sortieIds.length;
  const lines = plan.linePropellantIds.length;
  const metered = plan.lineRateKgPerDay.some((rate) => rate > 0) ? lines : 0;
  // A flight that is put off takes part in what is due, and one place ends the list.
  const due = 2 * sorties + 2;
  const image = {
    clocks: take.doubles(CLOCKS),
    tanks: take.doubles(TANK_WIDTH * plan.tankIds.length),
    records: take.doubles(RECORD_WIDTH * plan.tankIds.length),
    dueAt: take.doubles(due),
    sortieLoadedAt: take.doubles(sorties),
    poolFlowAt: take.doubles(pools),
    poolSettledAt: take.doubles(pools),
    lineDeliverableKg: take.doubles(isDrawing ? lines : 0),
    surplusKg: take.doubles(plan.needPropellantIds.length),
    counters: take.integers(COUNTERS),
    fillOrder: take.integers(plan.poolTanks.length),
    drawOrder: take.integers(plan.poolTanks.length),
    dueNumber: take.integers(due),
    poolFlowTank: take.integers(pools),
    poolFlowLine: take.integers(pools),
    poolFlowCount: take.integers(pools),
    landerIsAway: take.bytes(plan.landerIds.length),
    sortieStatus: take.bytes(sorties),
    sortieOutcome: take.bytes(sorties),
    sortieLanderAway: take.bytes(sorties),
  };
  imageEnd();
  return {
    ...image,
    surveys: take.doubles(SURVEY_WIDTH * plan.needPropellantIds.length),
    flowLeftKg: take.doubles(metered),
    flowShare: take.doubles(metered),
    flowEndAt: take.doubles(metered),
    leftKg: take.doubles(lines),
    flows: take.integers(metered),
    leftLine: take.integers(lines),
  };
};

const EIGHT = 8;

/** A state, all its parts in one buffer. */
const createState = (plan: CompiledPlan, isDrawing: boolean) => {
  let bytes = 0;
  let imageBytes = 0;
  const count = <T>(size: number, none: T) => {
    return (length: number): T => {
      bytes = Math.ceil(bytes / size) * size + size * length;
      return none;
    };
  };
  const counter = {
    doubles: count(EIGHT, new Float64Array(0)),
    integers: count(4, new Int32Array(0)),
    bytes: count(1, new Uint8Array(0)),
  };
  carve(plan, isDrawing, counter, () => (imageBytes = bytes = Math.ceil(bytes / EIGHT) * EIGHT));
  const buffer = new ArrayBuffer(Math.ceil(bytes / EIGHT) * EIGHT);
  let at = 0;
  const from = (size: number, length: number): number => {
    const start = Math.ceil(at / size) * size;
    at = start + size * length;
    return start;
  };
  const views = {
    doubles: (length: number) => new Float64Array(buffer, from(EIGHT, length), length),
    integers: (length: number) => new Int32Array(buffer, from(4, length), length),
    bytes: (length: number) => new Uint8Array(buffer, from(1, length), length),
  };
  const parts = carve(plan, isDrawing, views, () => (at = imageBytes));
  return { ...parts, state: new Uint8Array(buffer), imageBytes };
};

type State = ReturnType<typeof createState>;

/** Whether a sortie is out where the run begins; one that leaves later does so by a record. */
const isOutAtStart = (plan: CompiledPlan, sortie: number): boolean =>
  plan.sortieIsOut[sortie] === 1 && (plan.sortieLoadAt[sortie] as number) <= plan.asOfAt;

/** Writes what each run begins with, but for levels and rates in force, which hang on its input. */
const writeImage = (plan: CompiledPlan, state: State): void => {
  const { tanks } = state;
  plan.tankMaximumKg.forEach((maximum, tank) => {
    const row = TANK_WIDTH * tank;
    tanks[row + AT] = plan.asOfAt;
    tanks[row + WATCH] = Infinity;
    tanks[row + MAXIMUM] = maximum;
    tanks[row + HEEL] = plan.tankHeelKg[tank] as number;
    tanks[row + PLAN_K] = plan.tankK[tank] as number;
    tanks[row + PLAN_C] = plan.tankC[tank] as number;
  });
  const rows = plan.poolTanks.map((tank) => TANK_WIDTH * tank);
  state.fillOrder.set(rows);
  state.drawOrder.set(rows);
  state.clocks[REACHED] = -Infinity;
  state.clocks[FLOW_AT] = Infinity;
  state.dueAt.fill(Infinity);
  state.sortieLoadedAt.fill(Number.NaN);
  state.poolFlowAt.fill(Infinity);
  state.poolFlowTank.fill(-1);
  state.poolFlowLine.fill(-1);
  state.sortieOutcome.fill(OUTCOME.pending);
  state.surplusKg.set(plan.needSurplusKg);
  plan.sortieIsOut.forEach((_, sortie) => {
    if (isOutAtStart(plan, sortie)) state.landerIsAway[plan.sortieLander[sortie] as number] = 1;
  });
};

const needRows = (plan: CompiledPlan): { readonly needs: Float64Array; readonly needTanks: Int32Array } => {
  const needs = new Float64Array(NEED_WIDTH * plan.needTank.length);
  const needTanks = new Int32Array(NEED_TANKS * plan.needTank.length);
  plan.needTank.forEach((tank, need) => {
    const pool = plan.needPool[need] as number;
    const sole = plan.poolSoleTank[pool] as number;
    const isEmpty = plan.poolStart[pool] === plan.poolStart[pool + 1];
    const row = NEED_WIDTH * need;
    needs[row + RESERVE] = plan.poolReserveKg[pool] as number;
    needTanks[NEED_TANKS * need] = TANK_WIDTH * tank;
    needTanks[NEED_TANKS * need + 1] = sole >= 0 ? TANK_WIDTH * sole : isEmpty ? -1 : -2 - pool;
  });
  return { needs, needTanks };
};

const needSorties = (plan: CompiledPlan): Int32Array => {
  const sorties = new Int32Array(plan.needTank.length);
  for (let sortie = 0; sortie < plan.sortieIds.length; sortie += 1)
    sorties.fill(sortie, plan.sortieLineStart[sortie], plan.sortieLineStart[sortie + 1]);
  return sorties;
};

const sortieRows = (plan: CompiledPlan): Float64Array => {
  const sorties = new Float64Array(SORTIE_WIDTH * plan.sortieIds.length);
  plan.sortieLoadAt.forEach((loadAt, sortie) => {
    const row = SORTIE_WIDTH * sortie;
    sorties[row + LOAD_AT] = loadAt;
    sorties[row + RETURN_AT] = plan.sortieReturnAt[sortie] as number;
    sorties[row + HOLD_MS] = plan.sortieHoldMs[sortie] as number;
    sorties[row + HAS_WINDOWS] = plan.sortieWindows[sortie] === null ? 0 : 1;
  });
  return sorties;
};

const doubles = (length: number): Float64Array => new Float64Array(length);

/** The room for runs of a plan. What lines and needs ask for is still to be set. */
export const createRun = (plan: CompiledPlan, input: RunInput): Run => {
  const lines = plan.linePropellantIds.length;
  const drawingLines = Int32Array.from([...plan.lineOriginPool.keys()].filter((line) => isDrawn(plan, line)));
  const state = createState(plan, drawingLines.length > 0);
  writeImage(plan, state);
  const image = state.state.slice(0, state.imageBytes);
  const isDrawing = drawingLines.length > 0;
  const table = createEventTable(plan);
  const isShared = (pool: number): boolean =>
    pool >= 0 && (plan.poolStart[pool + 1] as number) - (plan.poolStart[pool] as number) > 1;
  const { needs, needTanks } = needRows(plan);
  // Name by name rather than spread: the fields then lie in the object itself, one load nearer.
  return {
    tanks: state.tanks,
    records: state.records,
    clocks: state.clocks,
    counters: state.counters,
    dueAt: state.dueAt,
    dueNumber: state.dueNumber,
    landerIsAway: state.landerIsAway,
    sortieStatus: state.sortieStatus,
    sortieOutcome: state.sortieOutcome,
    sortieLoadedAt: state.sortieLoadedAt,
    sortieLanderAway: state.sortieLanderAway,
    surveys: state.surveys,
    surplusKg: state.surplusKg,
    fillOrder: state.fillOrder,
    drawOrder: state.drawOrder,
    flows: state.flows,
    flowLeftKg: state.flowLeftKg,
    flowShare: state.flowShare,
    flowEndAt: state.flowEndAt,
    poolFlowAt: state.poolFlowAt,
    poolFlowTank: state.poolFlowTank,
    poolFlowLine: state.poolFlowLine,
    poolFlowCount: state.poolFlowCount,
    poolSettledAt: state.poolSettledAt,
    leftLine: state.leftLine,
    leftKg: state.leftKg,
    state: state.state,
    image,
    plan,
    table,
    lineLoadedKg: doubles(lines),
    lineArrivedKg: doubles(lines),
    lineOfferedKg: doubles(lines),
    lineDeliverableKg: isDrawing ? state.lineDeliverableKg : doubles(lines),
    begunDeliverableKg: isDrawing
      ? new Float64Array(image.buffer, state.lineDeliverableKg.byteOffset, lines)
      : doubles(lines),
    drawingLines,
    needs,
    needTanks,
    sorties: sortieRows(plan),
    lineTank: plan.lineTank.map((tank) => (tank < 0 ? -1 : TANK_WIDTH * tank)),
    lineWantedKg: doubles(lines),
    lineChillKg: doubles(lines),
    lineKeep: doubles(lines),
    needSortie: needSorties(plan),
    sharesTanks: plan.poolKeys.some((_, pool) => isShared(pool)),
    sharedPool: plan.tankPool.map((pool) => (isShared(pool) ? pool : -1)),
    outSorties: Int32Array.from([...plan.sortieIsOut.keys()].filter((sortie) => isOutAtStart(plan, sortie))),
    input,
    slipMs: doubles(table.slots),
    queueAt: doubles(plan.eventAt.length + 1),
    queueNumber: new Int32Array(plan.eventAt.length + 1),
    order: 0,
    outages: 0,
    outageAt: doubles(0),
    outageOrder: new Int32Array(0),
    outageTank: new Int32Array(0),
    outageK: doubles(0),
    outageC: doubles(0),
    watchAt: null,
    watchedKg: doubles(0),
    trace: null,
  };
};

const isDrawn = (plan: CompiledPlan, line: number): boolean => (plan.lineOriginPool[line] as number) >= 0;
