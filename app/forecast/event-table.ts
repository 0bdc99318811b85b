/**
 * Everything that can happen in a run of a plan, numbered by its place among what happens at one instant. The number
 * itself is then the rule for ties, for what is known beforehand and what a run makes due alike.
 */
import { type CompiledPlan, EVENT, KEY_STRIDE, eventKey } from "./compiled-plan.ts";
import { EVENT_WIDTH, FROM, INDEX, KIND, TANK_WIDTH, TO } from "./layout.ts";

/** An arrival of which each line goes into one tank at once, and nothing metered beside it: by far the most of them. The other kinds are EVENT's. */
export const PLAIN_ARRIVAL = 7;

export interface EventTable {
  /** Rows of EVENT_WIDTH. The number of an event is the offset of its row. */
  readonly events: Int32Array;
  /** Of the plan's known events, in turn: their number, and the slot of the slip that moves them. */
  readonly numbers: Int32Array;
  readonly slotOf: Int32Array;
  /** Of each flight's arrival; −1: the plan has none. */
  readonly arrivalNumber: Int32Array;
  /** Of what a run makes due: a sortie's further try (2·sortie), its return (2·sortie + 1). */
  readonly dueNumber: Int32Array;
  /** Slips: by flight, by sortie, and one that stays 0. */
  readonly slots: number;
}

/** Departure and arrival slip as the flight does. */
const slotOf = (plan: CompiledPlan, kind: number, index: number): number => {
  if (kind === EVENT.arrival || kind === EVENT.departure) return index;
  if (kind === EVENT.load) return plan.flightIds.length + index;
  return plan.flightIds.length + plan.sortieIds.length;
};

/** Pools into which something flows metered: there an at-once handover changes the flow. */
const meteredPools = (plan: CompiledPlan): ReadonlySet<number> => {
  const pools = new Set<number>();
  plan.lineRateKgPerDay.forEach((rate, line) => {
    if (rate > 0) pools.add(plan.linePool[line] as number);
  });
  return pools;
};

const isPlain = (plan: CompiledPlan, flight: number, metered: ReadonlySet<number>): boolean => {
  const end = plan.flightLineStart[flight + 1] as number;
  for (let line = plan.flightLineStart[flight] as number; line < end; line += 1) {
    const pool = plan.linePool[line] as number;
    if (metered.has(pool) || (plan.lineTank[line] as number) < 0) return false;
  }
  return true;
};

/** Writes what an event is, and its lines, needs or tank. */
const writeRow = (
  plan: CompiledPlan,
  events: Int32Array,
  row: number,
  kind: number,
  index: number,
  metered: ReadonlySet<number>,
): void => {
  const isArrival = kind === EVENT.arrival;
  events[row + KIND] = isArrival && isPlain(plan, index, metered) ? PLAIN_ARRIVAL : kind;
  events[row + INDEX] = index;
  if (kind === EVENT.rate) events[row + FROM] = TANK_WIDTH * (plan.rateTank[index] as number);
  else if (kind !== EVENT.record) {
    const start = isArrival || kind === EVENT.departure ? plan.flightLineStart : plan.sortieLineStart;
    events[row + FROM] = start[index] as number;
    events[row + TO] = start[index + 1] as number;
  }
};

/** Numbers and rows of all events of a plan. */
export const createEventTable = (plan: CompiledPlan): EventTable => {
  const known = plan.eventAt.length;
  const sorties = plan.sortieIds.length;
  // A due event comes after the known one of the same key: half a step further.
  const keys = new Float64Array(known + 2 * sorties);
  keys.set(plan.eventKey);
  for (let sortie = 0; sortie < sorties; sortie += 1) {
    keys[known + 2 * sortie] = eventKey(0, EVENT.load, sortie) + 0.5;
    keys[known + 2 * sortie + 1] = eventKey(0, EVENT.return, sortie) + 0.5;
  }
  keys.sort();
  const knownOf = new Map<number, number>();
  plan.eventKey.forEach((key, event) => knownOf.set(key, event));
  const metered = meteredPools(plan);
  const events = new Int32Array(EVENT_WIDTH * keys.length);
  const numbers = new Int32Array(known);
  const slots = new Int32Array(known);
  const arrivalNumber = new Int32Array(plan.flightIds.length).fill(-1);
  const dueNumber = new Int32Array(2 * sorties);
  keys.forEach((key, place) => {
    const number = EVENT_WIDTH * place;
    const event = knownOf.get(key) ?? -1;
    const kind = event < 0 ? Math.floor(key / KEY_STRIDE) % 8 : (plan.eventKind[event] as number);
    const index = event < 0 ? Math.floor(key) % KEY_STRIDE : (plan.eventIndex[event] as number);
    writeRow(plan, events, number, kind, index, metered);
    if (event < 0) {
      dueNumber[2 * index + (kind === EVENT.return ? 1 : 0)] = number;
      return;
    }
    numbers[event] = number;
    slots[event] = slotOf(plan, kind, index);
    if (kind === EVENT.arrival) arrivalNumber[index] = number;
  });
  return {
    events,
    numbers,
    slotOf: slots,
    arrivalNumber,
    dueNumber,
    slots: plan.flightIds.length + sorties + 1,
  };
};
