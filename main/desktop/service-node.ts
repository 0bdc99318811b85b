/** A Node executable for the service and the command line, where Electron's own is too old for the database module. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { App } from "electron";

/**
 * Whether the environment may name a program to be started. In a package that is handed out it may not: whoever sets it
 * would have a program run in this one's name, which the fuses are there to prevent. A package made for tests says in
 * its own description, which lies in the sealed archive, that it takes one.
 */
export const takesNamedNode = (isPackaged: boolean, description: unknown): boolean =>
  !isPackaged ||
  (typeof description === "object" &&
    description !== null &&
    "takesNamedNode" in description &&
    description.takesNamedNode === true);

/** `COLDSTOCK_SERVICE_NODE`; null: none is named, or none may be. */
export const namedNode = (app: Pick<App, "isPackaged" | "getAppPath">): string | null => {
  const named = process.env["COLDSTOCK_SERVICE_NODE"];
  if (named === undefined || named === "") return null;
  const description = (): unknown => JSON.parse(readFileSync(join(app.getAppPath(), "package.json"), "utf8"));
  return takesNamedNode(app.isPackaged, app.isPackaged ? description() : null) ? named : null;
};
