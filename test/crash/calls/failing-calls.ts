/**
 * The program that `failing-calls.test.ts` runs under strace: calls by which an action brings something onto the disk fail
 * once, in turn, and after each the files are opened anew and asked whether the answer was true. Of each kind three,
 * `COLDSTOCK_FAILING=all`: every one. `node failing-calls.js <folder> <ledger> <action>…`; prints JSON. The ledger holds edits 1 to 6.
 */
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { countCalls } from "./counted-calls.ts";
import { type Answer, type Prepared, type Trial, trials } from "./trials.ts";

export interface TrialResult {
  readonly name: string;
  /** Calls that failed, by kind. */
  readonly failed: Readonly<Record<string, number>>;
  /** Answers that said that it was done, and those that it was not. */
  readonly told: { readonly done: number; readonly failed: number };
  /** Where an answer was not true or a file not sound. */
  readonly faults: readonly string[];
}

const [folder = "", base = "", ...names] = process.argv.slice(2);
const isEach = process.env["COLDSTOCK_FAILING"] === "all";
const scratch = join(folder, "scratch");
mkdirSync(scratch, { recursive: true });
const calls = countCalls(scratch);

/** Which of so many calls of a kind fail, in turn: all, or the first, one of the middle and the last. */
const chosen = (made: number): readonly number[] =>
  isEach
    ? Array.from({ length: made }, (_, index) => index + 1)
    : [...new Set([1, Math.ceil(made / 2), made])].filter((k) => k <= made);

const run = async (trial: Trial): Promise<TrialResult> => {
  const failed: Record<string, number> = {};
  const told = { done: 0, failed: 0 };
  const faults: string[] = [];
  let number = 0;
  const prepared = async (): Promise<Prepared> => {
    const place = join(folder, trial.name.replaceAll(" ", "-"), String((number += 1)));
    mkdirSync(place, { recursive: true });
    calls.settle();
    return await trial.prepare(place, base);
  };
  const judged = async (where: string, { judge }: Prepared, value: Answer): Promise<void> => {
    const fault = await judge(value);
    if (fault !== null) faults.push(`${where}: ${fault}`);
    if (value.ok) told.done += 1;
    else told.failed += 1;
    if (!value.ok && !/^\S+ \S+ .*\.\)?$/su.test(value.words)) faults.push(`${where}: no sentence: ${value.words}`);
  };
  const whole = await prepared();
  const { value: answer, made } = await calls.counted(whole.act);
  await judged("nothing failing", whole, answer);
  if (!answer.ok) faults.push(`failed without a failing call: ${answer.words}`);
  for (const kind of calls.kinds)
    for (const k of chosen(made[kind] ?? 0)) {
      const trying = await prepared();
      const { value, hasFailed } = await calls.failing(kind, k, trying.act);
      await judged(`${kind} ${k}`, trying, value);
      // Of reading, the action may do with one call less than it did before.
      if (hasFailed) failed[kind] = (failed[kind] ?? 0) + 1;
      else if (!value.ok) faults.push(`${kind} ${k}: failed without a failing call`);
    }
  return { name: trial.name, failed, told, faults };
};

const results: TrialResult[] = [];
for (const trial of trials.filter(({ name }) => names.length === 0 || names.includes(name)))
  results.push(await run(trial));
calls.close();
process.stdout.write(JSON.stringify({ kinds: calls.kinds, results }));
