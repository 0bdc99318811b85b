/** What arrivals could not give, line by line: it is kept aboard or vented. */
import { LEFT } from "./layout.ts";
import type { Run } from "./run-state.ts";

/** Notes what a line could not give. */
export const leave = (run: Run, line: number, massKg: number): void => {
  const { counters, leftLine, leftKg } = run;
  const place = counters[LEFT] as number;
  leftLine[place] = line;
  leftKg[place] = massKg;
  counters[LEFT] = place + 1;
};
