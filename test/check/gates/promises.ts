/**
 * What DEVELOPERS.md says that the compiler says, tried: in a copy of the project every member of `promises.ts` is added,
 * and each file that is promised to ask for it must have a fault that names it. What the guide says and nothing tries is a fault.
 */
import { cpSync, mkdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Gate, Look } from "../gate.ts";
import { linesOf, root, runTool } from "../program.ts";
import { type PromiseOfCompiler, promisesOfCompiler } from "../promises.ts";

const copied = ["app", "db", "main", "renderer", "tsconfig.json", "package.json"];
/** Adds the member; a fault where there is no place for it. */
const added = (folder: string, { file, after, member, sentence }: PromiseOfCompiler): readonly string[] => {
  const path = join(folder, file);
  const parts = readFileSync(path, "utf8").split(after);
  if (parts.length !== 2) return [`${file}: has no one place to try "${sentence}"`];
  writeFileSync(path, parts.join(after + member));
  return [];
};

const kept = (
  printed: readonly string[],
  { pointsAt, names, sentence, times = 1 }: PromiseOfCompiler,
): readonly string[] =>
  pointsAt
    .filter((file) => printed.filter((line) => line.startsWith(`${file}(`) && names.test(line)).length < times)
    .map((file) => `${file}: the compiler does not ask for it, though DEVELOPERS.md says "${sentence}"`);

/** Faults that name the member in files of which the sentence says nothing, where it says that there are none. */
const beside = (
  printed: readonly string[],
  { pointsAt, names, sentence, isAll }: PromiseOfCompiler,
): readonly string[] =>
  isAll === true
    ? printed
        .filter((line) => names.test(line) && !pointsAt.some((file) => line.startsWith(`${file}(`)))
        .map((line) => `${line.split("(")[0]}: the compiler asks for it too, though DEVELOPERS.md says "${sentence}"`)
    : [];

/** Compiler's faults, each on one line: what is told further in stands behind it. */
const faultsIn = (text: string): readonly string[] =>
  linesOf(text).reduce<string[]>((lines, line) => {
    if (/^\s/.test(line) && lines.length > 0) lines[lines.length - 1] = `${lines.at(-1)} ${line.trim()}`;
    else lines.push(line);
    return lines;
  }, []);

/** The folders to compile so that every file that is pointed at is reached: main reaches db and app, db reaches app. */
const projectsFor = (promises: readonly PromiseOfCompiler[]): readonly string[] => {
  if (promises.some(({ isAll }) => isAll === true)) return ["main", "renderer"];
  const folders = new Set(promises.flatMap(({ pointsAt }) => pointsAt.map((file) => file.split("/")[0])));
  const back = ["main", "db", "app"].find((folder) => folders.has(folder));
  return [...(back === undefined ? [] : [back]), ...(folders.has("renderer") ? ["renderer"] : [])];
};

const tryTogether = async (promises: readonly PromiseOfCompiler[], name: string): Promise<Look> => {
  const folder = join(root, "out/promises", `${name}-${process.pid}`);
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  try {
    for (const part of copied) cpSync(join(root, part), join(folder, part), { recursive: true });
    symlinkSync(join(root, "node_modules"), join(folder, "node_modules"), "junction");
    const homeless = promises.flatMap((promise) => added(folder, promise));
    const printed = await Promise.all(
      projectsFor(promises).map(
        async (project) => (await runTool("tsc", ["-p", project, "--pretty", "false"], folder)).text,
      ),
    );
    const faults = printed.flatMap(faultsIn);
    return {
      files: new Set(promises.flatMap(({ pointsAt }) => pointsAt)).size,
      faults: [...homeless, ...promises.flatMap((promise) => [...kept(faults, promise), ...beside(faults, promise)])],
    };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};

const tryAll = async (promises: readonly PromiseOfCompiler[], guide: string, name: string): Promise<Look> => {
  const unsaid = promises
    .filter(({ sentence }) => !guide.includes(sentence))
    .map(({ sentence }) => `DEVELOPERS.md: does not say "${sentence}"`);
  const rounds = [
    ...Map.groupBy(
      promises.filter(({ isApart }) => isApart === true),
      ({ sentence }) => sentence,
    ).values(),
    promises.filter(({ isApart }) => isApart !== true),
  ];
  const looks = await Promise.all(rounds.map((round, at) => tryTogether(round, `${name}-${at}`)));
  return {
    files: looks.reduce((sum, { files }) => sum + files, 0),
    faults: [...unsaid, ...untried(guide, promises), ...looks.flatMap(({ faults }) => faults)],
  };
};

/** What the guide says below "How to add" that the compiler does, of which no promise is tried. */
const untried = (guide: string, promises: readonly PromiseOfCompiler[]): readonly string[] => {
  const part = /^## How to add$([^]*?)(?=^## |$(?![^]))/m.exec(guide)?.[1] ?? "";
  const rest = promises.reduce((text, { sentence }) => text.replace(sentence, "…"), part);
  return [...rest.matchAll(/[^.;:|\n]*\bcompile[sr]?\b[^.;\n]*/gi)].map(
    ([words]) => `DEVELOPERS.md: says "${words.trim()}", and no member is tried for it in test/check/promises.ts`,
  );
};

/** Promises that nothing keeps. */
const broken: readonly PromiseOfCompiler[] = [
  {
    sentence: "The compiler sees that the words are kind.",
    file: "app/supply/answer.ts",
    after: "export type PlanFinding =\n",
    member: '  | { readonly kind: "new finding" }\n',
    pointsAt: ["app/words/caution.ts"],
    names: /new finding/,
    isAll: true,
  },
  {
    sentence: "A place that is not there.",
    file: "app/words/caution.ts",
    after: "no such line",
    member: "",
    pointsAt: [],
    names: /never/,
  },
];

/** Says what none of them tries. */
const brokenGuide = "# Guide\n\n## How to add\n\n**A cloud**: one more member; the compiler leads to its colour.\n";

export const promiseGate: Gate = {
  name: "promises",
  fix: "make the compiler ask for it (an exhaustive switch, a table by kind), or take the sentence back",
  look: () => tryAll(promisesOfCompiler, readFileSync(join(root, "DEVELOPERS.md"), "utf8"), "all"),
  bites: [
    {
      name: "promises that nothing keeps",
      look: () => tryAll(broken, brokenGuide, "broken"),
      mustFind: [
        /app\/words\/caution\.ts: the compiler does not ask for it/,
        /DEVELOPERS\.md: does not say "The compiler sees/,
        /app\/supply\/weight\.ts: the compiler asks for it too/,
        /app\/words\/caution\.ts: has no one place to try/,
        /DEVELOPERS\.md: says "the compiler leads to its colour", and no member is tried/,
      ],
    },
  ],
};
