/** Computations that do what a pool must stand: count, look whether to stop or not, die, spread, need memory. */
import { readFileSync, writeFileSync } from "node:fs";
import { PlanningError } from "../../../../app/ground/failure.ts";
import { stopped, type Working } from "../../../../app/work/working.ts";
import { alone, type FindWork, spread } from "../../../../main/service/work/kind.ts";

export interface Base {
  readonly numbers: readonly number[];
}

/** Objects seen as bases by this thread. */
const bases = new WeakSet<object>();

const spinFor = (ms: number, each: () => boolean): boolean => {
  const until = performance.now() + ms;
  while (performance.now() < until) if (each()) return false;
  return true;
};

export const trialWorks = {
  /** Answers what it has when it is stopped. */
  count: alone((_base: null, { ms }: { readonly ms: number }, working: Working<number>) => {
    let count = 0;
    const isWhole = spinFor(ms, () => {
      count += 1;
      working.tell({ share: null, words: "Counting", partial: count });
      return working.shouldStop();
    });
    return { count, isWhole };
  }),
  /** Does not look at anything. */
  deaf: alone((_base: null, { ms }: { readonly ms: number }) => spinFor(ms, () => false)),
  /** Whether this thread has had this very object before. */
  known: alone((base: Base, _asked: null) => {
    const isKnown = bases.has(base);
    bases.add(base);
    return { isKnown, sum: base.numbers.reduce((sum, number) => sum + number, 0) };
  }),
  /** Dies as often as the number in the file says. */
  dies: alone((_base: null, { file }: { readonly file: string }) => {
    const left = Number(readFileSync(file, "utf8"));
    if (left > 0) {
      writeFileSync(file, String(left - 1));
      process.exit(3);
    }
    return "alive";
  }),
  greedy: alone((_base: null, _asked: null) => {
    const kept: number[][] = [];
    for (;;) kept.push(Array.from({ length: 100_000 }, (_, place) => place + 0.5));
  }),
  /** Makes and drops some hundred megabytes. */
  hungry: alone((_base: null, _asked: null) => {
    const kept: number[][] = [];
    for (let each = 0; each < 250; each += 1) kept.push(Array.from({ length: 100_000 }, (_, place) => place + 0.5));
    return kept.length;
  }),
  refuses: alone((_base: null, _asked: null): string => {
    throw new PlanningError("refused", "Not on a Sunday.", "day");
  }),
  broken: alone((_base: null, _asked: null): string => {
    throw new TypeError("a fault of the program");
  }),
  arrays: alone((_base: null, { length }: { readonly length: number }) => ({
    levels: Float64Array.from({ length }, (_, place) => place / 3),
    view: new Float64Array(4).subarray(1, 3),
  })),
  /** Squares in parts; whole, or of the rounds that were whole. */
  squares: spread({
    part: async ({ numbers }: Base, { ms }: { readonly ms: number }, place: number, working) => {
      if (!spinFor(ms, () => working.shouldStop())) throw stopped();
      return await Promise.resolve((numbers[place] ?? 0) ** 2);
    },
    lead: async ({ numbers }, _asked, { tell, runParts }) => {
      let sum = 0;
      let done = 0;
      const answers = await runParts(
        numbers.map((_, place) => place),
        (square) => {
          done += 1;
          sum += square;
          tell({ share: done / numbers.length, words: "Squaring", partial: sum });
        },
      );
      const whole = answers.filter((answer) => answer !== null);
      return { squares: whole, isWhole: whole.length === numbers.length };
    },
  }),
} as const;

export const findTrial: FindWork = (name) =>
  trialWorks[name as keyof typeof trialWorks] as unknown as ReturnType<FindWork>;
