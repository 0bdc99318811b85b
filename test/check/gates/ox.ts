/** Lint with types (oxlint) and format (oxfmt), with the project's own settings. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import type { Gate, Look } from "../gate.ts";
import { linesOf, root, runTool } from "../program.ts";
import { fixtureFolder } from "../source-files.ts";

const TOO_MANY_LINES = 401;

/** The formatter ends with "Finished in 5ms on 12 files …". */
const filesIn = (text: string): number => Number(/ on (\d+) files?/.exec(text)?.[1] ?? 0);

/** The project's settings but for what they leave out, so that the fixtures are looked at. */
const withAllFiles = async (settings: string, use: (path: string) => Promise<Look>): Promise<Look> => {
  const folder = mkdtempSync(join(tmpdir(), "coldstock-check-"));
  try {
    const parsed: unknown = JSON.parse(readFileSync(join(root, settings), "utf8"));
    const path = join(folder, settings);
    writeFileSync(path, JSON.stringify({ ...Object(parsed), ignorePatterns: [] }));
    return await use(path);
  } finally {
    rmSync(folder, { recursive: true });
  }
};

interface Diagnostic {
  readonly message: string;
  readonly code: string;
  readonly filename: string;
  readonly labels: readonly { readonly span: { readonly line: number } }[];
}

const lint = async (args: readonly string[]): Promise<Look> => {
  const { status, text } = await runTool("oxlint", ["--type-aware", "--deny-warnings", "--format=json", ...args]);
  if (!text.startsWith("{")) return { files: 0, faults: [`oxlint ended with ${status}: ${text}`] };
  const report: { number_of_files: number; diagnostics: readonly Diagnostic[] } = JSON.parse(text);
  const faults = report.diagnostics.map(
    ({ filename, labels, message, code }) => `${filename}:${labels[0]?.span.line ?? 1}: ${message} (${code})`,
  );
  return { files: report.number_of_files, faults: status === 0 ? [] : faults };
};

const format = async (args: readonly string[]): Promise<Look> => {
  const { status, text } = await runTool("oxfmt", ["--check", ...args]);
  return { files: filesIn(text), faults: status === 0 ? [] : linesOf(text) };
};

export const lintGate: Gate = {
  name: "lint",
  fix: "npm run fix (then by hand what is left)",
  look: () => lint(["."]),
  bites: [
    {
      name: "lint",
      look: () =>
        withAllFiles(".oxlintrc.json", (path) => {
          const long = join(dirname(path), "long.ts");
          writeFileSync(long, `/** Too long. */\n${"export {};\n".repeat(TOO_MANY_LINES)}`);
          return lint(["-c", path, fixtureFolder("lint"), long]);
        }),
      mustFind: [
        /no-floating-promises/,
        /switch-exhaustiveness-check/,
        /default-case/,
        /no-explicit-any/,
        /no-non-null-assertion/,
        /no-console/,
        /no-cycle/,
        /max-lines/,
      ],
    },
  ],
};

export const formatGate: Gate = {
  name: "format",
  fix: "npm run fix",
  look: () => format(["."]),
  bites: [
    {
      name: "format",
      look: () => withAllFiles(".oxfmtrc.json", (path) => format(["-c", path, fixtureFolder("format")])),
      mustFind: [/crooked\.ts/],
    },
  ],
};
