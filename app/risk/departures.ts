/**
 * When flights really depart, once their own slips and losses are drawn: a class is grounded after a loss, a lost hull
 * does not fly again, and a late flight makes the next of its hull late.
 */

/** The flights of a plan as the rules see them; indices are those of the compiled plan. */
export interface DeparturePlan {
  readonly departAt: Float64Array;
  /** Flights of one class, by planned departure: order[classStart[c] .. classStart[c + 1]). */
  readonly classStart: Int32Array;
  readonly order: Int32Array;
  /** The next flight of the same hull; −1: none. */
  readonly hullNext: Int32Array;
  /** How late a flight may be without making the next of its hull late, ms. */
  readonly hullRoomMs: Float64Array;
  /** 1: departed already; it can be lost, but not moved. */
  readonly isDeparted: Uint8Array;
  /** 1: some hull of the class has several flights. */
  readonly classHasChains: Uint8Array;
}

/** What is drawn, and what becomes of it; `slipMs` Infinity: does not depart. */
export interface DepartureRun {
  readonly slipMs: Float64Array;
  readonly isLost: Uint8Array;
  /** How long the class stands after the loss of this flight, ms. */
  readonly standMs: Float64Array;
  /** Room for the work: flights in order of departure, and their departures. */
  readonly queue: Int32Array;
  readonly at: Float64Array;
}

/** Moves what stands at a place to the right until the order of departure holds again. */
const sink = (run: DepartureRun, index: number, end: number): void => {
  const { queue, at } = run;
  const flight = queue[index] as number;
  const departs = at[flight] as number;
  let to = index;
  while (to + 1 < end && (at[queue[to + 1] as number] as number) < departs) {
    queue[to] = queue[to + 1] as number;
    to += 1;
  }
  queue[to] = flight;
};

/** Delays a later flight, which stands somewhere behind `index`. */
const delay = (run: DepartureRun, flight: number, until: number, index: number, end: number): void => {
  run.at[flight] = until;
  for (let i = index + 1; i < end; i += 1)
    if (run.queue[i] === flight) {
      sink(run, i, end);
      return;
    }
};

const settleClass = (plan: DeparturePlan, run: DepartureRun, from: number, end: number): void => {
  const { queue, at, slipMs, isLost } = run;
  for (let i = from; i < end; i += 1) {
    const flight = plan.order[i] as number;
    const departs = (plan.departAt[flight] as number) + (slipMs[flight] as number);
    at[flight] = departs;
    let index = i;
    while (index > from && (at[queue[index - 1] as number] as number) > departs) {
      queue[index] = queue[index - 1] as number;
      index -= 1;
    }
    queue[index] = flight;
  }
  let groundedFrom = -Infinity;
  let groundedUntil = -Infinity;
  for (let i = from; i < end;) {
    const flight = queue[i] as number;
    const departs = at[flight] as number;
    if (departs === Infinity) break;
    if (departs > groundedFrom && departs < groundedUntil && plan.isDeparted[flight] === 0) {
      at[flight] = groundedUntil;
      sink(run, i, end);
      continue;
    }
    slipMs[flight] = departs - (plan.departAt[flight] as number);
    let next = plan.hullNext[flight] as number;
    if (isLost[flight] === 1) {
      groundedFrom = departs;
      groundedUntil = Math.max(groundedUntil, departs + (run.standMs[flight] as number));
      for (; next >= 0; next = plan.hullNext[next] as number) {
        delay(run, next, Infinity, i, end);
        slipMs[next] = Infinity;
        isLost[next] = 0;
      }
    } else if (next >= 0) {
      const readyAt = (plan.departAt[next] as number) + slipMs[flight] - (plan.hullRoomMs[flight] as number);
      if (readyAt > (at[next] as number)) delay(run, next, readyAt, i, end);
    }
    i += 1;
  }
};

/** Settles slips and losses in place. Nothing changes where nothing is lost and no hull flies twice. */
export const settleDepartures = (plan: DeparturePlan, run: DepartureRun): void => {
  for (let c = 0; c + 1 < plan.classStart.length; c += 1) {
    const from = plan.classStart[c] as number;
    const end = plan.classStart[c + 1] as number;
    let isTouched = plan.classHasChains[c] === 1;
    for (let i = from; i < end && !isTouched; i += 1) {
      const flight = plan.order[i] as number;
      // A loss that grounds nobody and whose hull has no further flight changes nothing.
      isTouched =
        run.isLost[flight] === 1 && ((run.standMs[flight] as number) > 0 || (plan.hullNext[flight] as number) >= 0);
    }
    if (isTouched) settleClass(plan, run, from, end);
  }
};
