/**
 * Finds labels by their cell and cost: a table with open addresses and 64 bits of hash. Maps of the language hold such
 * numbers each in an object of its own, which took half of the time of a run.
 */

export interface CellTable {
  /** Forgets all. */
  clear(): void;
  /** The label that was put under the same cell and cost; −1: none, and `label` stands there from now on. */
  findOrPut(first: number, second: number, cost: number, label: number): number;
}

const FIRST_SIZE = 1024;

/** `costOf` gives the cost of a label that was put. */
export const makeCellTable = (costOf: (label: number) => number): CellTable => {
  let size = FIRST_SIZE;
  let labels = new Int32Array(size).fill(-1);
  let firsts = new Int32Array(size);
  let seconds = new Int32Array(size);
  let used = 0;
  const grow = (): void => {
    const [oldLabels, oldFirsts, oldSeconds] = [labels, firsts, seconds];
    size *= 2;
    labels = new Int32Array(size).fill(-1);
    firsts = new Int32Array(size);
    seconds = new Int32Array(size);
    for (let n = 0; n < oldLabels.length; n += 1) {
      const label = oldLabels[n] as number;
      if (label < 0) continue;
      let slot = (oldFirsts[n] as number) & (size - 1);
      while ((labels[slot] as number) >= 0) slot = (slot + 1) & (size - 1);
      labels[slot] = label;
      firsts[slot] = oldFirsts[n] as number;
      seconds[slot] = oldSeconds[n] as number;
    }
  };
  return {
    clear: () => {
      labels.fill(-1);
      used = 0;
    },
    findOrPut: (first, second, cost, label) => {
      if (2 * used >= size) grow();
      let slot = first & (size - 1);
      for (;;) {
        const found = labels[slot] as number;
        if (found < 0) break;
        if (firsts[slot] === first && seconds[slot] === second && costOf(found) === cost) return found;
        slot = (slot + 1) & (size - 1);
      }
      labels[slot] = label;
      firsts[slot] = first;
      seconds[slot] = second;
      used += 1;
      return -1;
    },
  };
};
