/**
 * `npm run test:long -- <which> [--from <round>]`: the same tests as in `npm test`, with the large numbers that a night
 * allows: kills, fuzz, calls, cuts, laws, resupply, or all of them. Each is done in rounds, every round a process of its own, so
 * that one that falls over is said and costs the others nothing, and a night that was cut short goes on where it was.
 */
import { parseArgs } from "node:util";
import { type Long, type Round, begun, longs, runRound } from "./suite/long-rounds.ts";
import { endShown } from "./suite/stage.ts";

const help = `Say which: ${Object.keys(longs).join(", ")}, or all; --from 7 goes on with the seventh round.`;

let at = "before the first round";
const startedAt = performance.now();
const minutes = (): string => `${((performance.now() - startedAt) / 60_000).toFixed(1)} min`;
const say = (line: string): void => console.log(`[${new Date().toISOString()}, ${minutes()}] ${line}`);

// However this ends, it says so, and where it was.
process.on("unhandledRejection", (reason) => {
  say(`a promise was refused and nobody heard it, ${at}: ${reason instanceof Error ? reason.stack : String(reason)}`);
  process.exitCode = 1;
});
process.on("uncaughtException", (error) => {
  say(`fell over, ${at}: ${error.stack}`);
  process.exit(1);
});
for (const signal of ["SIGHUP", "SIGTERM", "SIGINT"] as const)
  process.on(signal, () => {
    say(`told to stop by ${signal}, ${at}`);
    endShown();
    process.exit(1);
  });
process.on("exit", (status) => say(`ended with status ${status}, ${at}`));

/** Figures of several rounds, added up. */
const sumOf = (rounds: readonly Round[]): string => {
  const sums = new Map<string, number>();
  for (const { figures } of rounds)
    for (const [what, n] of Object.entries(figures)) sums.set(what, (sums.get(what) ?? 0) + n);
  const tests = rounds.reduce((sum, { passed }) => sum + passed, 0);
  return [`${tests} tests passed`, ...[...sums].map(([what, n]) => `${n} ${what}`)].join(", ");
};

const runLong = async (name: string, long: Long, from: number): Promise<boolean> => {
  say(`${name}: ${long.says}, in ${long.rounds} rounds`);
  const done: Round[] = [];
  const failed: number[] = [];
  for (let round = from; round <= long.rounds; round += 1) {
    at = `in round ${round} of ${long.rounds} of ${name} (to go on: COLDSTOCK_LONG_SEED=${begun} npm run test:long -- ${name} --from ${round})`;
    const result = await runRound(name, long, round);
    done.push(result);
    if (result.fault !== null) failed.push(round);
    say(
      `${name}, round ${round} of ${long.rounds}: ${result.fault ?? "good"}; since round ${from}: ${sumOf(done)}, ${failed.length} rounds failed`,
    );
  }
  const outcome = failed.length === 0 ? "every round was good" : `failed: round ${failed.join(", ")}`;
  say(`${name}: rounds ${from} to ${long.rounds}: ${sumOf(done)}; ${outcome}`);
  at = `after ${name}`;
  return failed.length === 0;
};

const main = async (): Promise<void> => {
  const { positionals, values } = parseArgs({ allowPositionals: true, options: { from: { type: "string" } } });
  const asked = positionals[0] ?? "";
  const chosen = Object.entries(longs).filter(([name]) => asked === "all" || name === asked);
  const from = Number(values.from ?? 1);
  if (chosen.length === 0 || !Number.isInteger(from) || from < 1 || (asked === "all" && from !== 1)) {
    console.error(help);
    process.exitCode = 2;
    return;
  }
  for (const [name, long] of chosen) if (!(await runLong(name, long, from))) process.exitCode = 1;
};
await main();
