/** The notices that go with the program: of each package its name, version, licence, and the licence's text as it came. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { productionPackages } from "./production-packages.ts";

export interface Notice {
  readonly name: string;
  readonly version: string;
  readonly licence: string;
  /** "": the package brings none; its licence is then the text of that name. */
  readonly text: string;
}

const LICENCE_FILE = /^(licen[cs]e|copying|notice)([.-].*)?$/i;

const textsIn = (folder: string): string =>
  readdirSync(folder)
    .filter((name) => LICENCE_FILE.test(name))
    .toSorted()
    .map((name) => readFileSync(join(folder, name), "utf8").trim())
    .join("\n\n");

/** Packages for other systems are in the lock and not on this disk: they are not built in here. */
export const collectNotices = (projectFolder: string): readonly Notice[] =>
  productionPackages(readFileSync(join(projectFolder, "package-lock.json"), "utf8"))
    .filter(({ path }) => existsSync(join(projectFolder, path)))
    .map(({ path, name, version, licence }) => ({ name, version, licence, text: textsIn(join(projectFolder, path)) }))
    .toSorted((a, b) => (a.name < b.name ? -1 : 1));
