/**
 * `npm run bench [-- word …]`: runs test/bench/*.bench.ts (only those whose file name holds one of the words), prints a
 * table on stderr and JSON on stdout. Exit 1 when a figure is over its limit or a bench failed.
 */
import { readdirSync } from "node:fs";
import { availableParallelism, cpus } from "node:os";
import { type Bench, type BenchFigure, BenchUnavailable } from "./bench.ts";

interface BenchOutcome {
  readonly bench: string;
  readonly figures: readonly BenchFigure[];
  readonly failure: string | null;
  readonly unavailable: string | null;
}

const isBench = (value: unknown): value is Bench =>
  typeof value === "object" && value !== null && "name" in value && "run" in value;

const outcomeOf = async (fileName: string): Promise<BenchOutcome> => {
  const empty = { bench: fileName.replace(/\.bench\.ts$/, ""), figures: [], failure: null, unavailable: null };
  try {
    const loaded: unknown = await import(new URL(fileName, import.meta.url).href);
    const bench = typeof loaded === "object" && loaded !== null && "bench" in loaded ? loaded.bench : undefined;
    if (!isBench(bench)) throw new Error(`${fileName} does not export a bench`);
    const figures = await bench.run();
    for (const figure of figures)
      if (!Number.isFinite(figure.value)) throw new Error(`${figure.name}: the figure is ${figure.value}`);
    return { ...empty, bench: bench.name, figures };
  } catch (error) {
    if (error instanceof BenchUnavailable) return { ...empty, unavailable: error.message };
    return { ...empty, failure: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  }
};

const threeDigits = (value: number): string =>
  value !== 0 && Math.abs(value) < 1e-3 ? value.toExponential(2) : Number(value.toPrecision(4)).toString();

const markOf = (figure: BenchFigure): string =>
  figure.limit === undefined ? "" : figure.value <= figure.limit ? "pass" : "OVER";

const rowOf = (figure: BenchFigure, all: ReadonlyMap<string, BenchFigure>): readonly string[] => {
  const base = figure.ratioTo === undefined ? undefined : all.get(figure.ratioTo);
  return [
    figure.name,
    `${threeDigits(figure.value)} ${figure.unit}`,
    figure.limit === undefined ? "" : `≤ ${threeDigits(figure.limit)} ${figure.unit}`,
    markOf(figure),
    base === undefined ? "" : `${threeDigits(figure.value / base.value)} × ${base.name}`,
    figure.note ?? "",
  ];
};

const printTable = (rows: readonly (readonly string[])[]): void => {
  const widths = rows[0]?.map((_, column) => Math.max(...rows.map((row) => row[column]?.length ?? 0))) ?? [];
  for (const row of rows)
    console.error(
      row
        .map((cell, column) => cell.padEnd(widths[column] ?? 0))
        .join("  ")
        .trimEnd(),
    );
};

const words = process.argv.slice(2);
const every = readdirSync(new URL(".", import.meta.url))
  .filter((name) => name.endsWith(".bench.ts"))
  .toSorted();
const unknown = words.filter((word) => !every.some((name) => name.includes(word)));
if (unknown.length > 0) {
  const names = every.map((name) => name.replace(/\.bench\.ts$/, "")).join(", ");
  console.error(`No bench of the name ${unknown.join(", ")}. There are: ${names}`);
  process.exit(2);
}
const files = every.filter((name) => words.length === 0 || words.some((word) => name.includes(word)));

const outcomes: BenchOutcome[] = [];
for (const file of files) {
  console.error(`running ${file} …`);
  outcomes.push(await outcomeOf(file));
}

const all = new Map(outcomes.flatMap((outcome) => outcome.figures).map((figure) => [figure.name, figure]));
printTable([
  ["figure", "value", "limit", "mark", "ratio", "note"],
  ...outcomes.flatMap((outcome) => outcome.figures.map((figure) => rowOf(figure, all))),
]);
for (const outcome of outcomes) {
  if (outcome.unavailable !== null) console.error(`NOT RUN ${outcome.bench}: ${outcome.unavailable}`);
  if (outcome.failure !== null) console.error(`FAILED ${outcome.bench}: ${outcome.failure}`);
}

const figures = outcomes.flatMap((outcome) =>
  outcome.figures.map((figure) => {
    const base = figure.ratioTo === undefined ? undefined : all.get(figure.ratioTo);
    return Object.assign({ bench: outcome.bench }, figure, {
      ...(figure.limit === undefined ? {} : { holds: figure.value <= figure.limit }),
      ...(base === undefined ? {} : { ratio: figure.value / base.value }),
    });
  }),
);
const machine = { node: process.version, cores: availableParallelism(), processor: cpus()[0]?.model ?? "unknown" };
const notRun = outcomes.filter((outcome) => outcome.unavailable !== null || outcome.failure !== null);
console.log(
  JSON.stringify(
    { machine, figures, notRun: notRun.map(({ bench, unavailable, failure }) => ({ bench, unavailable, failure })) },
    null,
    2,
  ),
);

const isOver = figures.some((figure) => "holds" in figure && !figure.holds);
const isMissing = outcomes.some(
  (outcome) => outcome.failure !== null || (outcome.unavailable !== null && process.env["CI"] === "true"),
);
process.exitCode = isOver || isMissing ? 1 : 0;
