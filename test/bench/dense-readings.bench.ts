/**
 * A ledger with a hundred thousand gauge readings on the command line as it is built: import, supply check and report, each
 * a process of its own, timed from its start to its end with the most memory it ever held.
 */
import { execFile } from "node:child_process";
import { copyFileSync, existsSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { demoTarn } from "../../app/demo/tarn.ts";
import { loadDocument } from "../../db/ledger.ts";
import { type Bench, type BenchFigure, BenchUnavailable, median } from "./bench.ts";
import { denseCsv } from "./dense-readings.ts";

const RUNS = 3;
const LIMIT_MS = 5000;
const LIMIT_MB = 500;
const program = new URL("../../out/main/cli.js", import.meta.url).pathname;

/** Makes a process say at its end, on its error output, how much memory it held at the most, in KiB. */
const TELL_MEMORY = `data:text/javascript,${encodeURIComponent(
  "process.on('exit', () => process.stderr.write(`\\npeak ${process.resourceUsage().maxRSS}\\n`))",
)}`;

interface Ran {
  readonly ms: number;
  readonly megabytes: number;
}

/** Throws where the program ends with an error of use: 1 is an answer (a sortie is short). */
const run = async (args: readonly string[]): Promise<Ran> =>
  await new Promise((resolve, reject) => {
    const from = performance.now();
    execFile(
      process.execPath,
      ["--import", TELL_MEMORY, program, ...args],
      { maxBuffer: 1e8 },
      (error, _out, errors) => {
        const ms = performance.now() - from;
        const peak = /peak (\d+)/.exec(errors)?.[1];
        if (peak === undefined || (error !== null && error.code !== 1))
          reject(new Error(`${args.join(" ")}: ${errors}`));
        else resolve({ ms, megabytes: (Number(peak) * 1024) / 1e6 });
      },
    );
  });

const figuresOf = (what: string, ran: readonly Ran[]): readonly BenchFigure[] => [
  { name: `100,000 readings: ${what}`, value: median(ran.map(({ ms }) => ms)), unit: "ms", limit: LIMIT_MS },
  {
    name: `100,000 readings: ${what}, memory at the most`,
    value: Math.max(...ran.map(({ megabytes }) => megabytes)),
    unit: "MB",
    limit: LIMIT_MB,
  },
];

const measure = async (folder: string): Promise<readonly BenchFigure[]> => {
  const [empty, rows, ledger, paper] = ["empty.coldstock", "rows.csv", "dense.coldstock", "report.pdf"].map((name) =>
    join(folder, name),
  ) as [string, string, string, string];
  const store = loadDocument(empty, demoTarn());
  writeFileSync(rows, denseCsv(store));
  store.close();
  const imports: Ran[] = [];
  const checks: Ran[] = [];
  const reports: Ran[] = [];
  for (let round = 0; round < RUNS; round += 1) {
    rmSync(ledger, { force: true });
    copyFileSync(empty, ledger);
    imports.push(await run(["import", rows, ledger]));
    checks.push(await run(["check", ledger]));
    rmSync(paper, { force: true });
    reports.push(await run(["report", ledger, paper]));
  }
  return [
    ...figuresOf("import of a table", imports),
    ...figuresOf("supply check", checks),
    ...figuresOf("report as PDF", reports),
  ];
};

export const bench: Bench = {
  name: "dense readings",
  run: async () => {
    if (!existsSync(program)) throw new BenchUnavailable("There is no built program: npm run build.");
    const folder = mkdtempSync(join(tmpdir(), "coldstock-dense-"));
    try {
      return await measure(folder);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  },
};
