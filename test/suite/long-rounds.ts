/** The long runs, each cut into rounds, and how one round is run and what it showed. */
import { mkdirSync, rmSync } from "node:fs";
import { join } from "node:path";
import { root } from "../e2e/equipment/project.ts";
import { readReport, runShown } from "./stage.ts";

export interface Long {
  readonly says: string;
  readonly rounds: number;
  readonly paths: readonly string[];
  /** What one round, counted from 1, is set to, unless whoever runs it has set it. */
  readonly environment: (round: number) => Readonly<Record<string, string>>;
}

export interface Round {
  readonly passed: number;
  /** What the tests counted by the names that they gave, as `acknowledged edits`. */
  readonly figures: Readonly<Record<string, number>>;
  /** In words; null: every test of it passed. */
  readonly fault: string | null;
}

/** From which the rounds have their seeds; a test that fails prints its own. */
export const begun = Number(process.env["COLDSTOCK_LONG_SEED"] ?? Date.now() % 1_000_000);
const LEDGERS_A_ROUND = 10;
/** Their seeds are counted from 1, and are the same each time. */
const RESUPPLY_ROUNDS = 8;

export const longs: Readonly<Record<string, Long>> = {
  kills: {
    says: "the service killed 1,000 times within at least 50,000 acknowledged edits",
    rounds: 10,
    paths: ["test/crash/kill.test.ts"],
    environment: (round) => ({
      COLDSTOCK_KILL_LEDGERS: String(LEDGERS_A_ROUND),
      COLDSTOCK_KILL_FROM: String((round - 1) * LEDGERS_A_ROUND + 1),
      COLDSTOCK_CRASH_SEED: String(begun),
    }),
  },
  fuzz: {
    says: "1,000,000 spoiled files and questions",
    rounds: 10,
    paths: ["test/fuzz/files.test.ts"],
    environment: (round) => ({ COLDSTOCK_FUZZ_INPUTS: "100000", COLDSTOCK_FUZZ_SEED: String(begun + round) }),
  },
  calls: {
    says: "every call that writes fails once, without leaving any page out",
    rounds: 1,
    paths: ["test/crash/failing-calls.test.ts"],
    environment: () => ({ COLDSTOCK_FAILING: "all" }),
  },
  cuts: {
    says: "2,000 power cuts",
    rounds: 10,
    paths: ["test/crash/power-cut.test.ts"],
    environment: (round) => ({ COLDSTOCK_CUTS: "200", COLDSTOCK_CRASH_SEED: String(begun + round) }),
  },
  laws: {
    says: "the law of records over 2,000 random ledgers",
    rounds: 4,
    paths: ["test/property/law.test.ts", "test/property/law-deeds.test.ts"],
    environment: () => ({ COLDSTOCK_LAW_RUNS: "500" }),
  },
  resupply: {
    says: "2,000 resupply plans against every choice of flights, and what else is held against the search",
    rounds: RESUPPLY_ROUNDS,
    paths: [
      "test/app/resupply",
      "test/property/resupply.test.ts",
      "test/property/resupply-answer.test.ts",
      "test/property/leave-by.test.ts",
    ],
    environment: (round) => ({
      COLDSTOCK_RESUPPLY_ROUND: String(round),
      COLDSTOCK_RESUPPLY_ROUNDS: String(RESUPPLY_ROUNDS),
    }),
  },
};

interface Report {
  readonly numPassedTests: number;
  readonly numFailedTests: number;
  readonly testResults: readonly {
    readonly status: string;
    readonly assertionResults: readonly {
      readonly status: string;
      readonly fullName: string;
      readonly meta?: { readonly figures?: Readonly<Record<string, number>> };
    }[];
  }[];
}

const figuresOf = (report: Report): Readonly<Record<string, number>> => {
  const sums: Record<string, number> = {};
  for (const { assertionResults } of report.testResults)
    for (const { meta } of assertionResults)
      for (const [what, n] of Object.entries(meta?.figures ?? {})) sums[what] = (sums[what] ?? 0) + n;
  return sums;
};

/** What is wrong with a round; null: nothing. That a test did not run is no success either. */
const faultOf = (status: number, report: Report | null): string | null => {
  if (report === null) return `ended with ${status} without a word of what it did`;
  const all = report.testResults.flatMap((file) => file.assertionResults);
  const failed = all.filter((result) => result.status === "failed");
  if (failed.length > 0) return `failed: ${failed.map((result) => result.fullName).join("; ")}`;
  const skipped = all.filter((result) => result.status !== "passed");
  if (skipped.length > 0) return `not run: ${skipped.map((result) => result.fullName).join("; ")}`;
  if (all.length === 0) return "no test was run";
  return status === 0 ? null : `every test passed, yet it ended with ${status}: an error was thrown outside of them`;
};

/** Runs one round in a process of its own; never rejects, for what becomes of it is the answer. */
export const runRound = async (name: string, long: Long, round: number): Promise<Round> => {
  const folder = join(root, "out/long");
  const reportPath = join(folder, `${name}-${round}.json`);
  try {
    mkdirSync(folder, { recursive: true });
    rmSync(reportPath, { force: true });
    const status = await runShown(
      "vitest",
      [
        "run",
        ...long.paths,
        "--config",
        "test/vitest.config.ts",
        "--disable-console-intercept",
        "--reporter=default",
        "--reporter=json",
        `--outputFile.json=${reportPath}`,
      ],
      { ...long.environment(round), ...process.env },
    );
    const report = readReport(reportPath) as Report | null;
    return {
      passed: report?.numPassedTests ?? 0,
      figures: report === null ? {} : figuresOf(report),
      fault: faultOf(status, report),
    };
  } catch (error) {
    return { passed: 0, figures: {}, fault: `could not be run or read: ${String(error)}` };
  }
};
