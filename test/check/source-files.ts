/** Which files the gates look at: what git tracks or would track, without the fixtures that must fail. */
import { execFileSync } from "node:child_process";
import { existsSync, readFileSync, readdirSync, statSync } from "node:fs";
import { join } from "node:path";
import { root } from "./program.ts";

/** One file of the project, or of a fixture that plays the project. */
export interface SourceFile {
  /** From the project's root, with slashes: "app/entity/plan.ts". */
  readonly path: string;
  readonly text: string;
}

const isText = (path: string): boolean => !/\.(png|ico|icns|woff2?|sqlite|coldstock|gz|zip)$/.test(path);

const read = (folder: string, paths: readonly string[]): readonly SourceFile[] =>
  paths.map((path) => ({ path, text: isText(path) ? readFileSync(join(folder, path), "utf8") : "" }));

/** Every file of the project that git tracks or would track. */
export const projectFiles = (): readonly SourceFile[] => {
  const listed = execFileSync(
    "git",
    ["-c", "safe.directory=*", "ls-files", "--cached", "--others", "--exclude-standard", "-z"],
    { cwd: root },
  );
  const paths = listed
    .toString()
    .split("\0")
    .filter((path) => path !== "" && !path.startsWith("test/check/fixtures/") && existsSync(join(root, path)));
  return read(root, [...new Set(paths)].toSorted());
};

/** A fixture folder as if it were the project's root. */
export const fixtureFiles = (name: string): readonly SourceFile[] => {
  const folder = fixtureFolder(name);
  const paths = readdirSync(folder, { recursive: true, encoding: "utf8" });
  return read(
    folder,
    paths.filter((path) => statSync(join(folder, path)).isFile()),
  );
};

export const fixtureFolder = (name: string): string => join(root, "test/check/fixtures", name);

/** Source in a language that the syntax gates read. */
export const isScript = (path: string): boolean => /\.tsx?$/.test(path) && !path.endsWith(".d.ts");
