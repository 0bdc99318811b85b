/** What one stage of `npm test` reports: how many tests passed and failed, and by name what did not run and why. */
import { type ChildProcess, spawn } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { root } from "../e2e/equipment/project.ts";

export interface NotRun {
  readonly name: string;
  readonly why: string;
}

export interface StageResult {
  readonly stage: string;
  readonly passed: number;
  readonly failed: number;
  readonly notRun: readonly NotRun[];
}

const shown = new Set<ChildProcess>();

/** Ends what is running on this terminal; what started it is to end too. */
export const endShown = (): void => {
  for (const child of shown) child.kill();
};

/** Runs a tool of `npm ci` with its output on this terminal. */
export const runShown = (tool: string, args: readonly string[], env: NodeJS.ProcessEnv = {}): Promise<number> =>
  new Promise((resolve, reject) => {
    const child = spawn(`${root}/node_modules/.bin/${tool}`, args, {
      cwd: root,
      stdio: ["ignore", "inherit", "inherit"],
      env: { ...process.env, ...env },
    });
    shown.add(child);
    child.on("error", reject);
    child.on("close", (status, signal) => {
      shown.delete(child);
      // Ended from outside it says nothing itself.
      if (signal !== null) console.error(`${tool} was ended by ${signal}.`);
      resolve(status ?? 1);
    });
  });

/** The JSON that a tool wrote; null when it wrote none (it fell over). */
export const readReport = (path: string): unknown =>
  existsSync(path) ? (JSON.parse(readFileSync(path, "utf8")) as unknown) : null;
