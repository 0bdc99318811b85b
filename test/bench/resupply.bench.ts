/**
 * The resupply search as a first question of a process: plan, proof, least loss, one flight lost, repair, stop, memory;
 * and the linear solver alone on the relaxation of the same problems in the same run. Processor time, so that a busy
 * machine tells the same.
 */
import { execFileSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { type Bench, type BenchFigure, median } from "./bench.ts";
import type { OnceAnswer } from "./resupply-once.ts";

const program = fileURLToPath(new URL("resupply-once.ts", import.meta.url));
const SEEDS = [1, 2, 3, 4, 5, 6, 7, 8];

const once = (what: string, seed: number): OnceAnswer => {
  const text = execFileSync(process.execPath, [program, what, String(seed)], { encoding: "utf8" });
  return JSON.parse(text) as OnceAnswer;
};

const most = (answers: readonly OnceAnswer[], of: (answer: OnceAnswer) => number): number =>
  Math.max(...answers.map(of));
const open = (answers: readonly OnceAnswer[], isDone: (answer: OnceAnswer) => boolean): number =>
  answers.filter((answer) => !isDone(answer)).length;
const gap = ({ lower, upper }: OnceAnswer): number => (upper === null ? 99 : upper - (lower ?? 0));
const counts = (answers: readonly OnceAnswer[]): string => answers.map(({ upper }) => upper ?? "none").join(" ");

/** Seeds whose figures are of fewer processes, for time. */
const SOME = [1, 2];

export const bench: Bench = {
  name: "resupply",
  run: () => {
    const flights = SEEDS.map((seed) => once("flights", seed));
    const solver = SEEDS.map((seed) => once("solver", seed));
    const loss = SEEDS.map((seed) => once("loss", seed));
    const lost = SEEDS.map((seed) => once("one lost", seed));
    const years = SOME.map((seed) => once("ten years", seed));
    const campaign = SOME.map((seed) => once("campaign", seed));
    const often = [once("every two days", 1)];
    const repair = SOME.map((seed) => once("repair", seed));
    const leave = [once("leave by", 1)];
    const stop = SOME.map((seed) => once("stop", seed));
    const all = [...flights, ...loss, ...lost, ...years, ...campaign, ...often, ...repair];
    const whole = "resupply, family of eight: least flights proved, median";
    const ms = (name: string, value: number, limit?: number, note?: string): BenchFigure => ({
      name: `resupply, ${name}`,
      value,
      unit: "ms",
      ...(limit === undefined ? {} : { limit }),
      ...(note === undefined ? {} : { note }),
    });
    const count = (name: string, value: number, limit?: number, note?: string): BenchFigure => ({
      ...ms(name, value, limit, note),
      unit: "seeds",
    });
    return [
      { name: whole, value: median(flights.map(({ wholeMs }) => wholeMs)), unit: "ms", note: counts(flights) },
      ms(
        "family of eight: first plan, worst",
        most(flights, ({ firstMs }) => firstMs),
        1000,
      ),
      ms(
        "family of eight: least flights proved, worst",
        most(flights, ({ wholeMs }) => wholeMs),
        5000,
      ),
      count(
        "family of eight: least flights left open",
        open(flights, ({ isProved }) => isProved),
        0,
      ),
      {
        ...ms("the linear solver alone on the same, median", median(solver.map(({ wholeMs }) => wholeMs))),
        ratioTo: whole,
        note: "at most 20 s of the clock each",
      },
      count(
        "the linear solver alone: left open after 20 s of the clock",
        open(solver, ({ isProved }) => isProved),
      ),
      ms(
        "family of eight: least loss, worst",
        most(loss, ({ wholeMs }) => wholeMs),
        5000,
      ),
      count(
        "family of eight: least loss left open",
        open(loss, ({ lossIsProved }) => lossIsProved),
        0,
      ),
      {
        ...ms("any one lost, within 3 s: worst gap", most(lost, gap), 1, counts(lost)),
        unit: "flights",
      },
      ms(
        "ten years: first plan, worst",
        most(years, ({ firstMs }) => firstMs),
        2000,
        counts(years),
      ),
      ms(
        "ten years: proof, worst",
        most(years, ({ wholeMs }) => wholeMs),
        10_000,
      ),
      count(
        "ten years: left open",
        open(years, ({ isProved }) => isProved),
        0,
      ),
      ms(
        "campaign, 3 classes every 6.56 days: first plan",
        most(campaign, ({ firstMs }) => firstMs),
        1000,
      ),
      ms(
        "campaign, 3 classes every 6.56 days: proof",
        most(campaign, ({ wholeMs }) => wholeMs),
        2000,
        counts(campaign),
      ),
      count(
        "campaign: left open",
        open(campaign, ({ isProved }) => isProved),
        0,
      ),
      ms(
        "campaign every two days, ports kept",
        most(often, ({ wholeMs }) => wholeMs),
        10_000,
        counts(often),
      ),
      count(
        "campaign every two days: left open",
        open(often, ({ isProved }) => isProved),
        0,
      ),
      ms(
        "repair after a loss, worst",
        most(repair, ({ wholeMs }) => wholeMs),
        1000,
        counts(repair),
      ),
      ms(
        "all dates to leave by of the campaign",
        most(leave, ({ wholeMs }) => wholeMs),
      ),
      ms(
        "stop",
        most(stop, ({ stopMs }) => stopMs ?? 0),
        200,
        "0: it was done before",
      ),
      {
        name: "resupply, resident memory, most",
        value: most(all, ({ residentMb }) => residentMb),
        unit: "MB",
        limit: 300,
      },
    ];
  },
};
