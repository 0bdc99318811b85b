/** What one stage of `npm test` reports: how many tests passed and failed, and by name what did not run and why. */
import { spawn } from "node:child_process";
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

/** Runs a tool of `npm ci` with its output on this terminal. */
export const runShown = (tool: string, args: readonly string[], env: NodeJS.ProcessEnv = {}): Promise<number> =>
  new Promise((resolve, reject) => {
    const child = spawn(`${root}/node_modules/.bin/${tool}`, args, {
      cwd: root,
      stdio: ["ignore", "inherit", "inherit"],
      env: { ...process.env, ...env },
    });
    child.on("error", reject);
    child.on("close", (status) => resolve(status ?? 1));
  });

/** The JSON that a tool wrote; null when it wrote none (it fell over). */
export const readReport = (path: string): unknown =>
  existsSync(path) ? (JSON.parse(readFileSync(path, "utf8")) as unknown) : null;
