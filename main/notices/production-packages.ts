/** The packages that the program is made of, as package-lock.json has them; what only builds and tests it is left out. */

export interface ProductionPackage {
  /** From the project's root: "node_modules/a/node_modules/b". */
  readonly path: string;
  readonly name: string;
  readonly version: string;
  /** SPDX expression; "": the package states none. */
  readonly licence: string;
}

interface LockedPackage {
  readonly version?: string;
  readonly license?: string;
  readonly dev?: boolean;
  readonly devOptional?: boolean;
}

/**
 * What each of these states only in the text of its licence, or not in the form of SPDX: looked at by a person, by name
 * and version.
 */
const stated: Readonly<Record<string, string>> = { "png-js@2.0.0": "MIT" };

const nameOf = (path: string): string => path.slice(path.lastIndexOf("node_modules/") + "node_modules/".length);

/** `lock`: the text of package-lock.json (form 2 or 3). */
export const productionPackages = (lock: string): readonly ProductionPackage[] => {
  const { packages } = JSON.parse(lock) as { readonly packages: Readonly<Record<string, LockedPackage>> };
  return Object.entries(packages)
    .filter(([path, { dev, devOptional }]) => path !== "" && dev !== true && devOptional !== true)
    .map(([path, { version = "", license }]) => {
      const name = nameOf(path);
      return { path, name, version, licence: license ?? stated[`${name}@${version}`] ?? "" };
    });
};

/** Licences under which a package may be built into a program that is handed out under the Apache licence. */
const allowed = new Set([
  "MIT",
  "ISC",
  "Apache-2.0",
  "BSD-2-Clause",
  "BSD-3-Clause",
  "0BSD",
  "BSL-1.0",
  "BlueOak-1.0.0",
  "OFL-1.1",
  "MPL-2.0",
]);

/** Whether an SPDX expression of plain names, AND, OR and brackets can be met by what is allowed. */
export const isAllowedLicence = (expression: string): boolean => {
  const words = expression.replaceAll(/[()]/g, " ").split(/\s+OR\s+/);
  return (
    expression !== "" &&
    words.some((side) =>
      side
        .trim()
        .split(/\s+AND\s+/)
        .every((name) => allowed.has(name)),
    )
  );
};
