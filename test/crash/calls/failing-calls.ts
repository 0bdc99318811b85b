/**
 * The program that `failing-calls.test.ts` runs under strace: every call by which an action brings something onto the
 * disk fails once, in turn, and after each the files are opened anew and asked whether the answer was true.
 * `node failing-calls.js <folder> <ledger> <action>…`; prints JSON. The ledger holds edits 1 to 6.
 */
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { countCalls } from "./counted-calls.ts";
import { type Trial, trials } from "./trials.ts";

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
/** Of what writes a whole new file, one page is like another: `COLDSTOCK_FAILING=all` fails each, else every fifth from a different one each day. */
const LONG: readonly string[] = ["import", "new ledger", "save a copy", "keep a state", "go back"];
const stepOf = (name: string): number => (LONG.includes(name) && process.env["COLDSTOCK_FAILING"] !== "all" ? 5 : 1);
const today = Math.floor(Date.now() / 86_400_000);
const scratch = join(folder, "scratch");
mkdirSync(scratch, { recursive: true });
const calls = countCalls(scratch);

const run = async (trial: Trial): Promise<TrialResult> => {
  const failed: Record<string, number> = {};
  const told = { done: 0, failed: 0 };
  const faults: string[] = [];
  let number = 0;
  const step = stepOf(trial.name);
  const first = 1 + (today % step);
  for (const kind of calls.kinds)
    for (let k = kind === "pwrite64" ? first : 1; ; k += kind === "pwrite64" ? step : 1) {
      const place = join(folder, trial.name.replaceAll(" ", "-"), String((number += 1)));
      mkdirSync(place, { recursive: true });
      calls.settle();
      const prepared = await trial.prepare(place, base);
      const { value, hasFailed } = await calls.failing(kind, k, prepared.act);
      const fault = await prepared.judge(value);
      if (value.ok) told.done += 1;
      else told.failed += 1;
      const where = `${kind} ${k}`;
      if (fault !== null) faults.push(`${where}: ${fault}`);
      if (!hasFailed) {
        if (!value.ok) faults.push(`${where}: failed without a failing call: ${value.words}`);
        break;
      }
      failed[kind] = (failed[kind] ?? 0) + 1;
      if (!value.ok && !/^\S+ \S+ .*\.\)?$/su.test(value.words)) faults.push(`${where}: no sentence: ${value.words}`);
    }
  return { name: trial.name, failed, told, faults };
};

const results: TrialResult[] = [];
for (const trial of trials.filter(({ name }) => names.length === 0 || names.includes(name)))
  results.push(await run(trial));
calls.close();
process.stdout.write(JSON.stringify({ kinds: calls.kinds, results }));
