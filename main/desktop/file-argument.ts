/** The ledger named on the command line that started the program (a double click on a file ends up there). */
import { statSync } from "node:fs";
import { resolve } from "node:path";

const isFile = (path: string): boolean => statSync(path, { throwIfNoEntry: false })?.isFile() ?? false;

/** The last argument that is a file, as an absolute path, or that has a ledger's ending (opening it says it is missing). */
export const fileArgument = (argv: readonly string[], workingFolder: string): string | null => {
  const named = argv
    .slice(1)
    .filter((argument) => !argument.startsWith("-"))
    .map((argument) => resolve(workingFolder, argument))
    .filter((path) => isFile(path) || path.toLowerCase().endsWith(".coldstock"));
  return named.at(-1) ?? null;
};
