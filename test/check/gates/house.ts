/** The house rules that no tool knows: sizes, first-line comments, names, README files, what stands at the top level. */
import { existsSync } from "node:fs";
import { join } from "node:path";
import type { Gate, Look } from "../gate.ts";
import { root } from "../program.ts";
import { type SourceFile, fixtureFiles, fixtureFolder, isScript, projectFiles } from "../source-files.ts";
import { hasDefaultExport } from "../syntax.ts";

const MAX_LINES = 400;
const MEDIAN_LINES = 80;
const NINETIETH_LINES = 250;
const MAX_README_LINES = 10;
const mainFolders = ["app", "db", "main", "renderer", "test"];
const atTopLevel = new Set([
  ...mainFolders,
  "electron.config.ts",
  "package.json",
  "package-lock.json",
  "tsconfig.json",
  "LICENSE",
  "README.md",
  "DEVELOPERS.md",
]);
/** Names that say a pattern or nothing, where a name should say the domain. */
const emptyNames = /^(utils?|helpers?|common|managers?|data|misc|shared|lib)$/;
/** Settings files whose program asks for a default export. */
const defaultExportAsked = /(\.config\.ts|^test\/check\/knip-reporter\.js)$/;
/** A word that promises work instead of doing it. */
const promise = new RegExp(`\\b(${["TO", "DO"].join("")}|${["FIX", "ME"].join("")})\\b`);

const linesOf = (file: SourceFile): number => file.text.split("\n").length - (file.text.endsWith("\n") ? 1 : 0);
/** SQL under test is material of a test: a snapshot, steps that are wrong on purpose. */
const isMaterial = (path: string): boolean => path.startsWith("test/") && path.endsWith(".sql");
const isCode = (path: string): boolean => !isMaterial(path) && /\.(ts|tsx|css|sql|html|js)$/.test(path);

/** A step of the database's form that was shipped is never edited, so not shortened either. */
const isShipped = (file: SourceFile): boolean =>
  file.path.endsWith(".sql") && file.text.slice(0, 200).includes("Shipped:");

const againstSize = (file: SourceFile): string | null =>
  isCode(file.path) && !isShipped(file) && linesOf(file) > MAX_LINES
    ? `${linesOf(file)} lines, ${MAX_LINES} at most`
    : null;

const opening = /^(#!.*\n)?(<!doctype html>\s*)?(\/\*|\/\/|--|<!--)/i;
const againstOpening = (file: SourceFile): string | null =>
  isCode(file.path) && !opening.test(file.text) ? "opens without a comment that says what the file is for" : null;

const againstName = (file: SourceFile): string | null => {
  const parts = file.path.split("/");
  const base = (parts.at(-1) ?? "").split(".")[0] ?? "";
  const empty = [...parts.slice(0, -1), base].find((part) => emptyNames.test(part));
  if (empty !== undefined) return `"${empty}" says nothing about the domain`;
  if (isScript(file.path) && !/^[a-z0-9]+(-[a-z0-9]+)*$/.test(base)) return "file names are kebab-case";
  return null;
};

const againstExport = (file: SourceFile): string | null =>
  isScript(file.path) && !defaultExportAsked.test(file.path) && hasDefaultExport(file) ? "named exports only" : null;

const againstPromise = (file: SourceFile): string | null =>
  isCode(file.path) && promise.test(file.text) ? "holds a note of work not done" : null;

const againstReadme = (file: SourceFile): string | null =>
  /.\/README\.md$/.test(file.path) && linesOf(file) > MAX_README_LINES
    ? `${linesOf(file)} lines, a folder's README has ${MAX_README_LINES} at most`
    : null;

/** A file or folder of ours named in a document between backticks, as far as its first placeholder. */
const namedPaths = (text: string): readonly string[] =>
  [...text.matchAll(/`((?:app|db|main|renderer|test)\/[A-Za-z0-9_./-]*)`/g)].flatMap((match) => match[1] ?? []);

/** Pictures come from a run of the tests; and a name with a placeholder names nothing yet. */
const isPromised = (named: string): boolean => named === "test/e2e/screens" || named.includes("00N0");

const deadPaths = (files: readonly SourceFile[], folder: string): readonly string[] =>
  files
    .filter((file) => /^[A-Z]+\.md$/.test(file.path))
    .flatMap((file) =>
      namedPaths(file.text)
        .filter((named) => !isPromised(named) && !existsSync(join(folder, named)))
        .map((named) => `${file.path}: names ${named}, which is not there`),
    );

const againstPlace = (file: SourceFile): string | null => {
  const top = file.path.split("/")[0] ?? "";
  return top.startsWith(".") || atTopLevel.has(top) ? null : "does not belong at the top level";
};

const rules = [againstSize, againstOpening, againstName, againstExport, againstPromise, againstReadme, againstPlace];

const missingReadmes = (files: readonly SourceFile[]): readonly string[] => {
  const paths = new Set(files.map((file) => file.path));
  return mainFolders
    .filter((folder) => !paths.has(`${folder}/README.md`))
    .map((folder) => `${folder}/README.md: missing`);
};

const againstSpread = (files: readonly SourceFile[]): readonly string[] => {
  const sizes = files
    .filter((file) => isScript(file.path) && !file.path.startsWith("test/"))
    .map(linesOf)
    .toSorted((a, b) => a - b);
  const at = (share: number): number => sizes[Math.min(sizes.length - 1, Math.floor(share * sizes.length))] ?? 0;
  return [
    ...(at(0.5) > MEDIAN_LINES ? [`median file length ${at(0.5)}, ${MEDIAN_LINES} at most`] : []),
    ...(at(0.9) > NINETIETH_LINES ? [`90th percentile of file length ${at(0.9)}, ${NINETIETH_LINES} at most`] : []),
  ];
};

const lookAt = (files: readonly SourceFile[], folder: string): Look => ({
  files: files.length,
  faults: [
    ...files.flatMap((file) =>
      rules.flatMap((rule) => {
        const fault = rule(file);
        return fault === null ? [] : [`${file.path}: ${fault}`];
      }),
    ),
    ...missingReadmes(files),
    ...deadPaths(files, folder),
    ...againstSpread(files),
  ],
});

/** Enough files over the limit to move the median too; nobody wants them on the disk. */
const tooLong: readonly SourceFile[] = Array.from({ length: 8 }, (_, at) => ({
  path: `app/long-${at + 1}.ts`,
  text: `/** Longer than a file may be. */\n${"export {};\n".repeat(MAX_LINES)}`,
}));

export const houseGate: Gate = {
  name: "house rules",
  fix: "by hand (DEVELOPERS.md, house rules)",
  look: async () => lookAt(projectFiles(), root),
  bites: [
    {
      name: "house",
      look: async () => lookAt([...fixtureFiles("house"), ...tooLong], fixtureFolder("house")),
      mustFind: [
        /app\/long-1\.ts: 401 lines/,
        /app\/bare\.ts: opens without a comment/,
        /app\/utils\/thing\.ts: "utils" says nothing/,
        /app\/helpers\.ts: "helpers" says nothing/,
        /app\/CamelName\.ts: file names are kebab-case/,
        /app\/default\.ts: named exports only/,
        /app\/promise\.ts: holds a note/,
        /app\/README\.md: 11 lines/,
        /stray\/thing\.ts: does not belong at the top level/,
        /db\/README\.md: missing/,
        /README\.md: names app\/gone\.ts, which is not there/,
        /median file length 401/,
        /90th percentile of file length 401/,
      ],
    },
  ],
};
