/**
 * One run of the label programme over all windows. A proof run keeps the join (part by part the most) of the labels that
 * share a cell: every real plan is shadowed by one that is at least as full and no dearer, so an empty end rules the
 * target out. A plan run keeps the best-bounded label of a cell, real ones only, and the best so many of a window.
 */
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
const COMPARED = 400;
const HASH_PRIME = 1009;
const HASH_ROOM = 2 ** 43;
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

/** Labels that no label at most as dear, compared with, is at least as full as; those with least cost first. */
const undominated = (shelf: Shelf, width: number, length: number, scale: Float64Array, beam: number): Int32Array => {
  const { count, vectors, cost, score } = shelf;
  let order = Int32Array.from({ length: count }, (_, n) => n);
  if (count > beam) {
    order.sort(
      (a, b) => (cost[a] as number) + (score[a] as number) - (cost[b] as number) - (score[b] as number) || a - b,
    );
    order = order.slice(0, beam);
  }
  const sum = new Float64Array(count);
  for (let n = 0; n < count; n += 1)
    for (let part = 0; part < length; part += 1)
      sum[n] = (sum[n] as number) + (vectors[n * width + part] as number) / (scale[part] as number);
  order.sort((a, b) => (cost[a] as number) - (cost[b] as number) || (sum[b] as number) - (sum[a] as number) || a - b);
  const kept = new Int32Array(order.length);
  let size = 0;
  for (const label of order) {
    let isDominated = false;
    for (let n = size - 1; n >= Math.max(0, size - COMPARED) && !isDominated; n -= 1) {
      const other = kept[n] as number;
      if ((sum[other] as number) < (sum[label] as number)) continue;
      let part = 0;
      while (part < length && (vectors[other * width + part] as number) >= (vectors[label * width + part] as number))
        part += 1;
      isDominated = part === length;
    }
    if (isDominated) continue;
    kept[size] = label;
    size += 1;
  }
  return kept.subarray(0, size);
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
  const ended = (status: "empty" | "limit", labels: number, endedAt: number): LabelRunAnswer => ({
    status,
    cost: Number.NaN,
    moves: none,
    labels,
    endedAt,
  });
  if (labelStep.start === null) return ended("empty", 0, -1);
  let vectors = new Float64Array(width);
  vectors.set(labelStep.start);
  let cost = new Float64Array(1);
  let count = 1;
  let labels = 0;
  const history: { parent: Int32Array; move: Uint16Array }[] = [];
  const from = new Float64Array(width);
  const next = new Float64Array(width);
  let looked = 0;
  for (let window = 0; window < windows; window += 1) {
    const shelf = makeShelf(width);
    const moves = movesOf[window] as readonly Move[];
    const length = labelStep.size[window + 1] as number;
    const before = labelStep.size[window] as number;
    const scale = labelStep.scale[window + 1] as Float64Array;
    const cells = new Map<number, Map<number, number>>();
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
        let ofCost = cells.get(spent);
        if (ofCost === undefined) cells.set(spent, (ofCost = new Map<number, number>()));
        let key = 0;
        for (let part = 0; part < length; part += 1)
          key =
            (key * HASH_PRIME + Math.floor((next[part] as number) / (cell * (scale[part] as number))) + HASH_ROOM) %
            HASH_ROOM;
        // Two cells of one key are joined: that only weakens a proof, and costs a plan a label.
        let place = ofCost.get(key);
        const isNew = place === undefined;
        if (place === undefined) {
          makeRoom(shelf, width);
          place = shelf.count;
          shelf.count += 1;
          ofCost.set(key, place);
        }
        const isBetter = isNew || score < (shelf.score[place] as number);
        if (isProof && !isNew) {
          for (let part = 0; part < length; part += 1)
            if ((next[part] as number) > (shelf.vectors[place * width + part] as number))
              shelf.vectors[place * width + part] = next[part] as number;
        } else if (isBetter)
          for (let part = 0; part < length; part += 1) shelf.vectors[place * width + part] = next[part] as number;
        if (!isBetter) continue;
        shelf.cost[place] = spent;
        shelf.score[place] = score;
        shelf.parent[place] = label;
        shelf.move[place] = n;
      }
    }
    const kept = undominated(shelf, width, length, scale, beam);
    count = kept.length;
    labels += count;
    vectors = new Float64Array(Math.max(1, count) * width);
    cost = new Float64Array(count);
    const parent = new Int32Array(count);
    const move = new Uint16Array(count);
    for (let n = 0; n < count; n += 1) {
      const label = kept[n] as number;
      vectors.set(shelf.vectors.subarray(label * width, label * width + length), n * width);
      cost[n] = shelf.cost[label] as number;
      parent[n] = shelf.parent[label] as number;
      move[n] = shelf.move[label] as number;
    }
    history.push({ parent, move });
    if (count === 0) return ended("empty", labels, window);
    if (count > mostLabels) return ended("limit", labels, window);
  }
  const whole = (label: number): number => (cost[label] as number) + asked.stillToCome(windows, vectors, label * width);
  let best = 0;
  for (let label = 1; label < count; label += 1) if (whole(label) < whole(best)) best = label;
  const answer = new Int32Array(windows);
  for (let window = windows - 1, label = best; window >= 0; window -= 1) {
    answer[window] = history[window]?.move[label] ?? 0;
    label = history[window]?.parent[label] ?? 0;
  }
  return { status: "found", cost: whole(best), moves: answer, labels, endedAt: windows };
};
