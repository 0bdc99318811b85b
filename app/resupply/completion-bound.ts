/**
 * What is at least still to come after a label, from the duals of the linear relaxation: an affine bound per instant.
 *
 * Valid for any prices ≥ 0: put price · (before + arrivals − after) ≥ 0 on the map of a window, minimise over the flights
 * and over need ≤ after ≤ top on their own, and go back window by window. Noise of the solver weakens it, never more.
 * With flights that may be lost a second level, that of the worst loss so far, obeys two more inequalities: it gets what
 * arrives, and it is at most the first level with one flight of the instant missing.
 */
import type { Candidates } from "./candidates.ts";
import type { LimitRow } from "./limit-rows.ts";
import { type LinearAnswer, type LinearProgramme, rowList } from "./linear.ts";
import { type Relaxation, worthOf } from "./relaxation.ts";

/** What is minimised: cost by lane, less what is in the tanks at the end times its value. */
export interface Objective {
  readonly cost: Float64Array;
  readonly endValue: 0 | 1;
}

/** after boundary s: still to come ≥ base[s] − price[s]·level − lostPrice[s]·(level after the worst loss). */
export interface CompletionBound {
  readonly base: Float64Array;
  /** [boundary · pools + pool] */
  readonly price: Float64Array;
  readonly lostPrice: Float64Array;
  /** What a kilogram is worth that arrives in a window from another depot. [window · pools + pool] */
  readonly arrival: Float64Array;
  readonly lostArrival: Float64Array;
}

interface Layout {
  readonly cells: readonly number[];
  readonly columnOf: ReadonlyMap<number, number>;
  readonly levels: number;
}

const layoutOf = ({ free }: Candidates, relaxation: Relaxation): Layout => {
  const cells = [...free.keys()].filter((cell) => (free[cell] ?? 0) > 0);
  return {
    cells,
    columnOf: new Map(cells.map((cell, column) => [cell, column])),
    levels: relaxation.windows * relaxation.pools.length,
  };
};

/** Share of an instant's arrivals that is there at most when one of them is lost. */
const shareLeft = (relaxation: Relaxation, window: number): number => {
  // One from another depot is lost as it departs: of those that arrive here none need be missing.
  if ((relaxation.laterArrivals[window]?.length ?? 0) > 0) return 1;
  let most = 1;
  relaxation.groups.forEach((_, group) => {
    most = Math.max(most, relaxation.groupMost[window * relaxation.groups.length + group] ?? 0);
  });
  return 1 - 1 / most;
};

/** Cells whose flights arrive in a window. */
const arrivingIn = ({ arrivesIn }: Candidates, { lanes, laterArrivals }: Relaxation, window: number): number[] => {
  const own = Array.from({ length: lanes }, (_, lane) => window * lanes + lane);
  return [...own.filter((cell) => arrivesIn[cell] === window), ...(laterArrivals[window] ?? [])];
};

/** The relaxation as a linear programme; rows: balances (one set, or three where flights may be lost), instants, limits. */
export const relaxedProgramme = (
  candidates: Candidates,
  relaxation: Relaxation,
  objective: Objective,
  limits: readonly LimitRow[],
): LinearProgramme => {
  const { windows, lanes, pools } = relaxation;
  const count = pools.length;
  const { cells, columnOf, levels } = layoutOf(candidates, relaxation);
  const isRobust = candidates.problem.lost > 0;
  const sets = isRobust ? 2 : 1;
  const total = cells.length + sets * levels;
  const cost = new Float64Array(total);
  const lower = new Float64Array(total);
  const upper = new Float64Array(total);
  cells.forEach((cell, column) => {
    cost[column] = objective.cost[cell % lanes] ?? 0;
    upper[column] = candidates.free[cell] ?? 0;
  });
  for (let set = 0; set < sets; set += 1)
    for (let n = 0; n < levels; n += 1) {
      const column = cells.length + set * levels + n;
      lower[column] = relaxation.need[n] ?? 0;
      upper[column] = relaxation.top[n] ?? 0;
      const isLast = n >= levels - count;
      if (set === 0 && isLast) cost[column] = -objective.endValue * (relaxation.q[n] ?? 0);
    }
  const rows = rowList();
  /** after(set) ≤ before(from) + share · arrivals */
  const balance = (set: number, from: number, shareOf: (window: number) => number): void => {
    for (let window = 0; window < windows; window += 1)
      for (let pool = 0; pool < count; pool += 1) {
        const cell = window * count + pool;
        for (const arriving of arrivingIn(candidates, relaxation, window)) {
          const column = columnOf.get(arriving);
          if (column !== undefined)
            rows.put(column, -shareOf(window) * (relaxation.brings[arriving * count + pool] ?? 0));
        }
        if (window > 0) rows.put(cells.length + from * levels + cell - count, -(relaxation.q[cell - count] ?? 0));
        rows.put(cells.length + set * levels + cell, 1);
        rows.end(-Infinity, window > 0 ? -(relaxation.r[cell - count] ?? 0) : (relaxation.start[pool] ?? 0));
      }
  };
  balance(0, 0, () => 1);
  if (isRobust) {
    balance(1, 1, () => 1);
    balance(1, 0, (window) => shareLeft(relaxation, window));
  }
  for (let window = 0; window < windows; window += 1)
    relaxation.groups.forEach((group, index) => {
      for (const lane of group) {
        const column = columnOf.get(window * lanes + lane);
        if (column !== undefined) rows.put(column, 1);
      }
      rows.end(-Infinity, relaxation.groupMost[window * relaxation.groups.length + index] ?? 0);
    });
  for (const limit of limits) {
    limit.cells.forEach((cell, n) => rows.put(columnOf.get(cell) ?? 0, limit.takes[n] ?? 0));
    rows.end(-Infinity, limit.most);
  }
  let offset = 0;
  for (let n = levels - count; n < levels; n += 1) offset += objective.endValue * (relaxation.r[n] ?? 0);
  return { offset, cost, lower, upper, ...rows.done() };
};

/** The part of the bound that flights pay for: the cheapest ones, as many as the depot takes at the instant. */
const cheapest = (
  candidates: Candidates,
  relaxation: Relaxation,
  window: number,
  reduced: (lane: number) => number,
): number => {
  let sum = 0;
  relaxation.groups.forEach((group, index) => {
    let room = relaxation.groupMost[window * relaxation.groups.length + index] ?? 0;
    const offers = group
      .map((lane) => ({ price: reduced(lane), free: candidates.free[window * relaxation.lanes + lane] ?? 0 }))
      .filter(({ price, free }) => price < 0 && free > 0)
      .toSorted((a, b) => a.price - b.price);
    for (const { price, free } of offers) {
      const taken = Math.min(free, room);
      sum += taken * price;
      room -= taken;
    }
  });
  return sum;
};

/** The bound from the duals of {@link relaxedProgramme}. A dual of a ≤ row is ≤ 0; its price is the opposite. */
export const completionBound = (
  candidates: Candidates,
  relaxation: Relaxation,
  objective: Objective,
  limits: readonly LimitRow[],
  { duals }: LinearAnswer,
): CompletionBound => {
  const { windows, lanes, pools, groups, q, r, need, top, brings } = relaxation;
  const count = pools.length;
  const levels = windows * count;
  const isRobust = candidates.problem.lost > 0;
  const priceAt = (row: number): number => Math.max(0, -(duals[row] ?? 0));
  const extra = new Float64Array(windows * lanes);
  const given = new Float64Array(windows);
  const firstLimit = (isRobust ? 3 : 1) * levels + windows * groups.length;
  limits.forEach((limit, n) => {
    const price = priceAt(firstLimit + n);
    if (price === 0) return;
    limit.cells.forEach((cell, i) => {
      extra[cell] = (extra[cell] ?? 0) + price * (limit.takes[i] ?? 0);
    });
    given[limit.last] = (given[limit.last] ?? 0) + price * limit.most;
  });
  const base = new Float64Array(windows + 1);
  const price = new Float64Array((windows + 1) * count);
  const lostPrice = new Float64Array((windows + 1) * count);
  const arrival = new Float64Array(levels);
  const lostArrival = new Float64Array(levels);
  price.fill(objective.endValue, windows * count);
  /** The least of slope · level over need ≤ level ≤ top. */
  const leastOf = (slope: number, cell: number): number => slope * ((slope > 0 ? need[cell] : top[cell]) ?? 0);
  for (let window = windows - 1; window >= 0; window -= 1) {
    const share = isRobust ? shareLeft(relaxation, window) : 0;
    const own = (pool: number): number => priceAt(window * count + pool);
    const lost = (pool: number): number => (isRobust ? priceAt(levels + window * count + pool) : 0);
    const losing = (pool: number): number => (isRobust ? priceAt(2 * levels + window * count + pool) : 0);
    for (let pool = 0; pool < count; pool += 1) {
      arrival[window * count + pool] = own(pool) + share * losing(pool);
      lostArrival[window * count + pool] = lost(pool);
    }
    let sum = (base[window + 1] ?? 0) - (given[window] ?? 0);
    sum += cheapest(candidates, relaxation, window, (lane) => {
      const cell = window * lanes + lane;
      let reduced = (objective.cost[lane] ?? 0) + (extra[cell] ?? 0);
      const first = (candidates.arrivesIn[cell] ?? -1) * count;
      for (let pool = 0; pool < count; pool += 1)
        reduced -=
          ((arrival[first + pool] ?? 0) + (lostArrival[first + pool] ?? 0)) * (brings[cell * count + pool] ?? 0);
      return reduced;
    });
    for (let pool = 0; pool < count; pool += 1) {
      const cell = window * count + pool;
      const next = price[cell + count] ?? 0;
      const nextLost = lostPrice[cell + count] ?? 0;
      sum += (next + nextLost) * (r[cell] ?? 0);
      sum += leastOf(own(pool) - (q[cell] ?? 0) * next, cell);
      if (isRobust) sum += leastOf(lost(pool) + losing(pool) - (q[cell] ?? 0) * nextLost, cell);
      price[cell] = own(pool) + losing(pool);
      lostPrice[cell] = lost(pool);
    }
    base[window] = sum;
  }
  return { base, price, lostPrice, arrival, lostArrival };
};

/** What is at least still to come after a label (with the one after the worst loss behind it, `lostFrom`; −1: none). */
export const stillToCome = (
  bound: CompletionBound,
  relaxation: Relaxation,
  boundary: number,
  label: Float64Array,
  from: number,
  lostFrom: number,
): number => {
  const count = relaxation.pools.length;
  let sum = bound.base[boundary] as number;
  for (let pool = 0; pool < count; pool += 1) {
    const price = bound.price[boundary * count + pool] as number;
    if (price > 0) sum -= price * worthOf(relaxation, boundary, pool, label, from);
    if (lostFrom < 0) continue;
    const lostPrice = bound.lostPrice[boundary * count + pool] as number;
    if (lostPrice > 0) sum -= lostPrice * worthOf(relaxation, boundary, pool, label, lostFrom);
  }
  const ways = relaxation.ways[boundary] as Relaxation["ways"][number];
  for (let n = 0; n < ways.length; n += 1) {
    const { part, cell, worth } = ways[n] as Relaxation["ways"][number][number];
    sum -= worth * (bound.arrival[cell] as number) * (label[from + part] as number);
    if (lostFrom >= 0) sum -= worth * (bound.lostArrival[cell] as number) * (label[lostFrom + part] as number);
  }
  return sum;
};
