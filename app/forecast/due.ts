/** What a run makes due while it goes: sorties that try again or return. Few at a time, kept in order. */
import { DUE } from "./layout.ts";
import type { Run } from "./run-state.ts";

/** Puts what is the last of `count + 1` into its place. */
const settleAt = (dueAt: Float64Array, dueNumber: Int32Array, count: number, at: number, number: number): void => {
  let place = count;
  while (place > 0) {
    const beforeAt = dueAt[place - 1] as number;
    const before = dueNumber[place - 1] as number;
    if (beforeAt < at || (beforeAt === at && before < number)) break;
    dueAt[place] = beforeAt;
    dueNumber[place] = before;
    place -= 1;
  }
  dueAt[place] = at;
  dueNumber[place] = number;
};

/** Makes an event due. */
export const putDue = (run: Run, at: number, number: number): void => {
  const { dueAt, dueNumber, counters } = run;
  const count = counters[DUE] as number;
  dueAt[count + 1] = Infinity;
  settleAt(dueAt, dueNumber, count, at, number);
  counters[DUE] = count + 1;
};

/** Takes the first away. */
export const takeDue = (run: Run): void => {
  const { dueAt, dueNumber, counters } = run;
  const count = (counters[DUE] as number) - 1;
  for (let place = 0; place < count; place += 1) {
    dueAt[place] = dueAt[place + 1] as number;
    dueNumber[place] = dueNumber[place + 1] as number;
  }
  dueAt[count] = Infinity;
  counters[DUE] = count;
};

/** Puts forward to an instant what `isMeant` says, by number; the order is kept. */
export const bringForward = (run: Run, at: number, isMeant: (run: Run, number: number) => boolean): void => {
  const { dueAt, dueNumber, counters } = run;
  const count = counters[DUE] as number;
  for (let place = 0; place < count; place += 1) {
    const number = dueNumber[place] as number;
    settleAt(dueAt, dueNumber, place, isMeant(run, number) ? at : (dueAt[place] as number), number);
  }
};
