/**
 * One run of the label programme over all windows. A proof run keeps the join (part by part the most) of the labels that
 * share a cell: every real plan is shadowed by one that is at least as full and no dearer, so an empty end rules the
 * target out. A plan run keeps the best-bounded label of a cell, real ones only, and the best so many of a window.
 */
import { makeCellTable } from "./cell-table.ts";
import type { LabelStep } from "./label-step.ts";
import type { Move } from "./moves.ts";

export interface LabelRunAsked {
  readonly mode: "proof" | "plan";
  /** Labels whose cost with what is still to come exceeds this are dropped. */
  readonly target: number;
  /** Size of a cell, as a share of each part's scale. */
  readonly cell: number;
  /** Labels kept of a window; Infinity: all. */
  readonly beam: number;
  /** A window with more labels than this ends the run. */
  readonly mostLabels: number;
  /** What is left at the end counts: a cost above the target may come down again. */
  readonly endCounts: boolean;
  /** What is at least still to come after the label in `label` at `from`. */
  stillToCome(boundary: number, label: Float64Array, from: number): number;
  shouldStop(): boolean;
}

export interface LabelRunAnswer {
  readonly status: "empty" | "found" | "limit";
  /** Found: cost, less the end's value, as `stillToCome` has it at the last boundary. */
  readonly cost: number;
  /** Found: the move of each window. */
  readonly moves: Int32Array;
  readonly labels: number;
  /** Window after which no label was left. */
  readonly endedAt: number;
}

/** A proof run forgives this much in every part, kg or days: rounding must not prove too much. */
const FORGIVEN = 1e-3;
/** Labels compared with before one is kept. */
const COMPARED = 120;
/** Odd numbers that spread cells: the golden ratio and a prime of the same kind, of 32 bits. */
const SPREAD = [0x9e3779b1, 0x85ebca77] as const;
const mixed = (hash: number): number => {
  const once = Math.imul(hash ^ (hash >>> 15), SPREAD[1]);
  return once ^ (once >>> 13);
};
/** Labels between two looks whether to stop. */
const LOOK_EVERY = 64;

/** Labels of one window, in growing arrays. */
interface Shelf {
  count: number;
  vectors: Float64Array;
  cost: Float64Array;
  score: Float64Array;
  parent: Int32Array;
  move: Uint16Array;
}

const makeShelf = (width: number): Shelf => ({
  count: 0,
  vectors: new Float64Array(256 * width),
  cost: new Float64Array(256),
  score: new Float64Array(256),
  parent: new Int32Array(256),
  move: new Uint16Array(256),
});

const grown = <T extends Float64Array | Int32Array | Uint16Array>(old: T, longer: T): T => {
  longer.set(old);
  return longer;
};

const makeRoom = (shelf: Shelf, width: number): void => {
  const room = shelf.cost.length;
  if (shelf.count < room) return;
  shelf.vectors = grown(shelf.vectors, new Float64Array(2 * room * width));
  shelf.cost = grown(shelf.cost, new Float64Array(2 * room));
  shelf.score = grown(shelf.score, new Float64Array(2 * room));
  shelf.parent = grown(shelf.parent, new Int32Array(2 * room));
  shelf.move = grown(shelf.move, new Uint16Array(2 * room));
};

/**
 * Cheapest first, of equal cost the fullest. Rank of the cost, fullness and place in the list packed into one number
 * each, for a sort without calls; fullness to the bits that are left, for its order is only a matter of speed.
 */
const byCostThenFullest = (order: Int32Array, cost: Float64Array, sum: Float64Array): void => {
  const rankOf = new Map<number, number>();
  let least = Infinity;
  let most = -Infinity;
  for (let n = 0; n < order.length; n += 1) {
    const label = order[n] as number;
    rankOf.set(cost[label] as number, 0);
    least = Math.min(least, sum[label] as number);
    most = Math.max(most, sum[label] as number);
  }
  const costs = Float64Array.from(rankOf.keys()).sort();
  for (let rank = 0; rank < costs.length; rank += 1) rankOf.set(costs[rank] as number, rank);
  const places = 2 ** Math.ceil(Math.log2(order.length + 1));
  const levels = Math.min(2 ** 24, 2 ** (52 - Math.ceil(Math.log2(costs.length + 1))) / places);
  const fine = most > least ? (levels - 1) / (most - least) : 0;
  const keys = new Float64Array(order.length);
  const listed = order.slice();
  for (let n = 0; n < order.length; n += 1) {
    const label = order[n] as number;
    const emptiness = Math.floor((most - (sum[label] as number)) * fine);
    keys[n] = ((rankOf.get(cost[label] as number) as number) * levels + emptiness) * places + n;
  }
  keys.sort();
  for (let n = 0; n < order.length; n += 1) {
    const key = keys[n] as number;
    order[n] = listed[key - Math.floor(key / places) * places] as number;
  }
};

/** The best so many by cost with what is still to come. */
const best = ({ count, cost, score }: Shelf, beam: number): Int32Array => {
  const order = new Int32Array(count);
  for (let n = 0; n < count; n += 1) order[n] = n;
  if (count <= beam) return order;
  order.sort(
    (a, b) => (cost[a] as number) + (score[a] as number) - (cost[b] as number) - (score[b] as number) || a - b,
  );
  return order.slice(0, beam);
};

/** What a window leaves: vectors one behind the other, cost, and where each came from. */
interface Kept {
  readonly count: number;
  readonly vectors: Float64Array;
  readonly cost: Float64Array;
  readonly parent: Int32Array;
  readonly move: Uint16Array;
}

/** Labels that no label at most as dear, compared with, is at least as full as; those with least cost first. */
const undominated = (shelf: Shelf, width: number, length: number, scale: Float64Array, beam: number): Kept => {
  const order = best(shelf, beam);
  const sum = new Float64Array(shelf.count);
  for (let n = 0; n < shelf.count; n += 1)
    for (let part = 0; part < length; part += 1)
      sum[n] = (sum[n] as number) + (shelf.vectors[n * width + part] as number) / (scale[part] as number);
  byCostThenFullest(order, shelf.cost, sum);
  const vectors = new Float64Array(Math.max(1, order.length) * width);
  const sums = new Float64Array(order.length);
  const cost = new Float64Array(order.length);
  const parent = new Int32Array(order.length);
  const move = new Uint16Array(order.length);
  let size = 0;
  for (let index = 0; index < order.length; index += 1) {
    const label = order[index] as number;
    const own = sum[label] as number;
    const at = size * width;
    // Written where it would come to lie; one that is dominated is written over.
    for (let part = 0; part < length; part += 1) vectors[at + part] = shelf.vectors[label * width + part] as number;
    let isDominated = false;
    for (let n = size - 1; n >= Math.max(0, size - COMPARED) && !isDominated; n -= 1) {
      if ((sums[n] as number) < own) continue;
      const other = n * width;
      let part = 0;
      while (part < length && (vectors[other + part] as number) >= (vectors[at + part] as number)) part += 1;
      isDominated = part === length;
    }
    if (isDominated) continue;
    sums[size] = own;
    cost[size] = shelf.cost[label] as number;
    parent[size] = shelf.parent[label] as number;
    move[size] = shelf.move[label] as number;
    size += 1;
  }
  return { count: size, vectors, cost, parent: parent.slice(0, size), move: move.slice(0, size) };
};

export const runLabels = (
  labelStep: LabelStep,
  movesOf: readonly (readonly Move[])[],
  asked: LabelRunAsked,
): LabelRunAnswer => {
  const { mode, target, cell, beam, mostLabels } = asked;
  const isProof = mode === "proof";
  const windows = movesOf.length;
  const width = labelStep.mostSize;
  const none = new Int32Array(0);
  let shelf = makeShelf(width);
  const cells = makeCellTable((label) => shelf.cost[label] as number);
  const ended = (status: "empty" | "limit", labels: number, endedAt: number): LabelRunAnswer => ({
    status,
    cost: Number.NaN,
    moves: none,
    labels,
    endedAt,
  });
  if (labelStep.start === null) return ended("empty", 0, -1);
  let vectors: Float64Array = new Float64Array(width);
  vectors.set(labelStep.start);
  let cost: Float64Array = new Float64Array(1);
  let count = 1;
  let labels = 0;
  const history: { parent: Int32Array; move: Uint16Array }[] = [];
  const from = new Float64Array(width);
  const next = new Float64Array(width);
  let looked = 0;
  for (let window = 0; window < windows; window += 1) {
    shelf = makeShelf(width);
    const moves = movesOf[window] as readonly Move[];
    const length = labelStep.size[window + 1] as number;
    const before = labelStep.size[window] as number;
    const scale = labelStep.scale[window + 1] as Float64Array;
    cells.clear();
    for (let label = 0; label < count; label += 1) {
      looked += 1;
      if (looked % LOOK_EVERY === 0 && asked.shouldStop()) return ended("limit", labels, window);
      for (let part = 0; part < before; part += 1)
        from[part] = (vectors[label * width + part] as number) + (isProof ? FORGIVEN : 0);
      for (let n = 0; n < moves.length; n += 1) {
        const move = moves[n] as Move;
        const spent = (cost[label] as number) + move.cost;
        if (spent > target + 1e-6 && !asked.endCounts) continue;
        if (!labelStep.step(window, from, 0, move, next, 0)) continue;
        const score = asked.stillToCome(window + 1, next, 0);
        if (spent + score > target + 1e-6) continue;
        let first = Math.imul(Math.round(spent * 1024), SPREAD[0]);
        let second = first;
        for (let part = 0; part < length; part += 1) {
          const index = Math.floor((next[part] as number) / (cell * (scale[part] as number)));
          first = Math.imul(first ^ index, SPREAD[0]);
          second = Math.imul(second, SPREAD[1]) + index;
        }
        // Two cells of one key are joined: that only weakens a proof, and costs a plan a label.
        let slot = cells.findOrPut(mixed(first), mixed(second), spent, shelf.count);
        const isNew = slot < 0;
        if (isNew) {
          makeRoom(shelf, width);
          slot = shelf.count;
          shelf.count += 1;
        }
        const isBetter = isNew || score < (shelf.score[slot] as number);
        if (isProof && !isNew) {
          for (let part = 0; part < length; part += 1)
            if ((next[part] as number) > (shelf.vectors[slot * width + part] as number))
              shelf.vectors[slot * width + part] = next[part] as number;
        } else if (isBetter)
          for (let part = 0; part < length; part += 1) shelf.vectors[slot * width + part] = next[part] as number;
        if (!isBetter) continue;
        shelf.cost[slot] = spent;
        shelf.score[slot] = score;
        shelf.parent[slot] = label;
        shelf.move[slot] = n;
      }
    }
    const kept = undominated(shelf, width, length, scale, beam);
    ({ count, vectors, cost } = kept);
    labels += count;
    history.push({ parent: kept.parent, move: kept.move });
    if (count === 0) return ended("empty", labels, window);
    if (count > mostLabels) return ended("limit", labels, window);
  }
  const whole = (label: number): number => (cost[label] as number) + asked.stillToCome(windows, vectors, label * width);
  let least = 0;
  for (let label = 1; label < count; label += 1) if (whole(label) < whole(least)) least = label;
  const answer = new Int32Array(windows);
  for (let window = windows - 1, label = least; window >= 0; window -= 1) {
    answer[window] = history[window]?.move[label] ?? 0;
    label = history[window]?.parent[label] ?? 0;
  }
  return { status: "found", cost: whole(least), moves: answer, labels, endedAt: windows };
};
