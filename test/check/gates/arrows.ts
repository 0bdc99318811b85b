/**
 * Which folder may import what. The compiler and the linter hold parts of it; this reads every import and holds all of
 * it: renderer → app; main → app, db; db → app; app → nothing of ours; nothing → test.
 */
import { posix } from "node:path";
import type { Gate, Look } from "../gate.ts";
import { type SourceFile, fixtureFiles, isScript, projectFiles } from "../source-files.ts";
import { reachedModules } from "../syntax.ts";

const folders = ["app", "db", "main", "renderer", "test"] as const;
type Folder = (typeof folders)[number];
const isFolder = (name: string | undefined): name is Folder => folders.some((folder) => folder === name);

const mayReach: Record<Folder, readonly Folder[]> = {
  app: ["app"],
  db: ["db", "app"],
  main: ["main", "app", "db"],
  renderer: ["renderer", "app"],
  test: folders,
};

/** Packages without clock, files, DOM or randomness: all that app may use. */
const purePackages = [
  "zod",
  "date-fns",
  "@date-fns/utc",
  "csv-parse/browser/esm/sync",
  "csv-parse/browser/esm",
  "csv-stringify/browser/esm/sync",
  "csv-stringify/browser/esm",
  "d3-array",
  "d3-interpolate",
  "d3-scale",
  "d3-time",
  "odex",
  "ml-matrix",
  "ical-generator",
  "ical.js",
  "windows-iana",
  "@internationalized/date",
];

const isOneOf = (specifier: string, packages: readonly string[]): boolean =>
  packages.some((name) => specifier === name || specifier.startsWith(`${name}/`));

/** Why a package may not be imported from a folder; null: it may. */
const againstPackage = (folder: Folder, specifier: string): string | null => {
  if (folder === "test") return null;
  if (folder === "app" && !isOneOf(specifier, purePackages)) return "app imports only the pure packages on the list";
  if (folder === "renderer" && specifier.startsWith("node:")) return "the page has no Node";
  if (folder !== "main" && isOneOf(specifier, ["electron"])) return "only main imports electron";
  if (folder !== "db" && isOneOf(specifier, ["better-sqlite3"])) return "only db imports better-sqlite3";
  return null;
};

const againstArrow = (file: SourceFile, folder: Folder, specifier: string): string | null => {
  if (!specifier.startsWith(".")) return againstPackage(folder, specifier);
  const place = posix.join(posix.dirname(file.path), specifier);
  // The program's own version stands in package.json and nowhere else.
  if (folder === "main" && place === "package.json") return null;
  const target = place.split("/")[0];
  if (!isFolder(target)) return folder === "test" ? null : `${folder} reaches outside the five folders`;
  return mayReach[folder].includes(target) ? null : `${folder} may not import ${target}`;
};

const lookAt = (files: readonly SourceFile[]): Look => {
  const scripts = files.filter((file) => isScript(file.path) && isFolder(file.path.split("/")[0]));
  const faults = scripts.flatMap((file) => {
    const folder = file.path.split("/")[0];
    if (!isFolder(folder)) return [];
    return reachedModules(file).flatMap(({ specifier, line }) => {
      const why = againstArrow(file, folder, specifier);
      return why === null ? [] : [`${file.path}:${line}: ${why} (${specifier})`];
    });
  });
  return { files: scripts.length, faults };
};

export const arrowGate: Gate = {
  name: "arrows",
  fix: "move the code to the folder that may hold it (DEVELOPERS.md, the arrows)",
  look: async () => lookAt(projectFiles()),
  bites: [
    {
      name: "arrows",
      look: async () => lookAt(fixtureFiles("arrows")),
      mustFind: [
        /app\/wrong\.ts:\d+: app may not import db/,
        /app\/wrong\.ts:\d+: app imports only the pure packages/,
        /app\/wrong\.ts:\d+: app may not import main/,
        /db\/wrong\.ts:\d+: db may not import main/,
        /db\/wrong\.ts:\d+: only main imports electron/,
        /main\/wrong\.ts:\d+: main may not import renderer/,
        /main\/wrong\.ts:\d+: main may not import test/,
        /main\/wrong\.ts:\d+: only db imports better-sqlite3/,
        /renderer\/wrong\.tsx:\d+: renderer may not import db/,
        /renderer\/wrong\.tsx:\d+: renderer may not import main/,
        /renderer\/wrong\.tsx:\d+: the page has no Node/,
        /renderer\/wrong\.tsx:\d+: only main imports electron/,
      ],
    },
  ],
};
