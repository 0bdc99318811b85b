/** The folder that the system has for this program's data: the browser host's ledgers, and copies of all ledgers. */
import { accessSync, constants, mkdirSync } from "node:fs";
import { homedir } from "node:os";
import { join } from "node:path";
import { PlanningError } from "../../app/ground/failure.ts";

const usual = (): string => {
  const home = homedir();
  switch (process.platform) {
    case "win32":
      return join(process.env["APPDATA"] ?? join(home, "AppData", "Roaming"), "Coldstock");
    case "darwin":
      return join(home, "Library", "Application Support", "Coldstock");
    default:
      return join(process.env["XDG_DATA_HOME"] ?? join(home, ".local", "share"), "coldstock");
  }
};

/** `COLDSTOCK_HOME`, or the place that the system has for a program's data. Made if it is not there. Throws "storage". */
export const dataFolder = (): string => {
  const named = process.env["COLDSTOCK_HOME"];
  const folder = named === undefined || named === "" ? usual() : named;
  try {
    mkdirSync(folder, { recursive: true, mode: 0o700 });
    accessSync(folder, constants.R_OK | constants.W_OK | constants.X_OK);
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw new PlanningError(
      "storage",
      `The folder for ledgers, ${folder}, cannot be used (${why}). Make it readable and writable for you, or name another with COLDSTOCK_HOME.`,
    );
  }
  return folder;
};
