/** Instants and order of what is known of a run beforehand, under its slips and outages. */
import type { RunInput } from "./run.ts";
import type { Run } from "./run-state.ts";

/** Whether slips are those in force from a slot on. */
const isInForce = (slipMs: Float64Array, from: number, asked: Float64Array): boolean => {
  for (let n = 0; n < asked.length; n += 1) if (slipMs[from + n] !== asked[n]) return false;
  return true;
};

/** Puts the slips of this run in force; whether any is another than before. `withheld`: a flight that does not happen. */
const takeSlips = (run: Run, input: RunInput, withheld: number): boolean => {
  const { slipMs } = run;
  const { flightSlipMs, sortieSlipMs } = input;
  const flights = flightSlipMs.length;
  if (withheld < 0 && isInForce(slipMs, 0, flightSlipMs) && isInForce(slipMs, flights, sortieSlipMs)) return false;
  slipMs.set(flightSlipMs);
  slipMs.set(sortieSlipMs, flights);
  if (withheld >= 0) slipMs[withheld] = Infinity;
  return true;
};

/** Whether outage a is after b. */
const isAfter = (at: Float64Array, a: number, b: number): boolean => (at[a] as number) > (at[b] as number);

/** Keeps this run's outages by rising instant, and room for them in the queue. */
const takeOutages = (run: Run, input: RunInput): void => {
  const { count, at, tank, kPerDay, cKgPerDay } = input.outages;
  run.outages = count;
  if (run.outageTank.length < count) {
    const room = at.length;
    run.outageAt = new Float64Array(room);
    run.outageTank = new Int32Array(room);
    run.outageK = new Float64Array(room);
    run.outageC = new Float64Array(room);
    run.outageOrder = new Int32Array(room);
    run.queueAt = new Float64Array(run.plan.eventAt.length + room + 1);
    run.queueNumber = new Int32Array(run.plan.eventAt.length + room + 1);
  }
  const { outageOrder } = run;
  for (let n = 0; n < count; n += 1) {
    let place = n;
    for (; place > 0 && isAfter(at, outageOrder[place - 1] as number, n); place -= 1)
      outageOrder[place] = outageOrder[place - 1] as number;
    outageOrder[place] = n;
  }
  for (let place = 0; place < count; place += 1) {
    const n = outageOrder[place] as number;
    run.outageAt[place] = at[n] as number;
    run.outageTank[place] = tank[n] as number;
    run.outageK[place] = kPerDay[n] as number;
    run.outageC[place] = cKgPerDay[n] as number;
  }
};

/** Puts one event into the queue, which is nearly in order already. */
const insert = (queueAt: Float64Array, queueNumber: Int32Array, count: number, at: number, number: number): void => {
  let place = count;
  while (place > 0) {
    const beforeAt = queueAt[place - 1] as number;
    const before = queueNumber[place - 1] as number;
    if (beforeAt < at || (beforeAt === at && before < number)) break;
    queueAt[place] = beforeAt;
    queueNumber[place] = before;
    place -= 1;
  }
  queueAt[place] = at;
  queueNumber[place] = number;
};

/** Puts outages from one on into the queue, as long as they are not after an instant; the first that is. */
const insertOutages = (run: Run, count: number, from: number, until: number): number => {
  const { queueAt, queueNumber, outages, outageAt } = run;
  let outage = from;
  for (; outage < outages && (outageAt[outage] as number) <= until; outage += 1)
    insert(queueAt, queueNumber, count + outage - from, outageAt[outage] as number, -1 - outage);
  return outage;
};

/** Orders what is known; what does not happen, or not before the horizon, is left out. */
const orderKnown = (run: Run): void => {
  const { queueAt, queueNumber, slipMs, outages } = run;
  const { numbers, slotOf } = run.table;
  const { eventAt, horizonAt } = run.plan;
  let count = 0;
  let outage = 0;
  /** The latest instant in the queue so far: what comes after it needs no place to be found. */
  let latestAt = -Infinity;
  for (let event = 0; event < eventAt.length; event += 1) {
    const at = (eventAt[event] as number) + (slipMs[slotOf[event] as number] as number);
    if (outage < outages) {
      // They are fed in between, so that little has to be moved.
      const next = insertOutages(run, count, outage, Math.min(eventAt[event] as number, horizonAt));
      count += next - outage;
      outage = next;
      if (count > 0) latestAt = queueAt[count - 1] as number;
    }
    if (at > horizonAt) continue;
    const number = numbers[event] as number;
    if (at > latestAt) {
      latestAt = at;
      queueAt[count] = at;
      queueNumber[count] = number;
    } else insert(queueAt, queueNumber, count, at, number);
    count += 1;
  }
  count += insertOutages(run, count, outage, horizonAt) - outage;
  queueAt[count] = Infinity;
  queueNumber[count] = 0;
};

/** Brings the order up to date with the input; does nothing where that has not changed. */
export const takeOrder = (run: Run, withheld = -1): void => {
  const { input } = run;
  const isSlipped = takeSlips(run, input, withheld);
  const isOrdered = run.order > 0;
  // Outages are not compared: as good as every run has other ones.
  if (isOrdered && !isSlipped && run.outages === 0 && input.outages.count === 0) return;
  takeOutages(run, input);
  orderKnown(run);
  run.order += 1;
};

/** Place in the order of the first event after an instant. */
export const placeAfter = (run: Run, at: number): number => {
  let place = 0;
  while ((run.queueAt[place] as number) <= at) place += 1;
  return place;
};
