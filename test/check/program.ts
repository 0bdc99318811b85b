/** Runs one of the tools that `npm ci` installs, at most two at a time, and keeps what it printed. */
import { spawn } from "node:child_process";
import { fileURLToPath } from "node:url";

export const root = fileURLToPath(new URL("../..", import.meta.url));

export interface Printed {
  readonly status: number | null;
  /** Standard output and error, as they came. */
  readonly text: string;
}

const MAX_AT_ONCE = 2;
let running = 0;
const waiting: (() => void)[] = [];

const turn = async (): Promise<void> => {
  if (running >= MAX_AT_ONCE) await new Promise<void>((resolve) => waiting.push(resolve));
  running += 1;
};

const done = (): void => {
  running -= 1;
  waiting.shift()?.();
};

/** Runs `node_modules/.bin/<tool>`. Throws when it cannot be started at all. */
export const runTool = async (tool: string, args: readonly string[], cwd = root): Promise<Printed> => {
  await turn();
  try {
    return await new Promise<Printed>((resolve, reject) => {
      const child = spawn(`${root}/node_modules/.bin/${tool}`, args, {
        cwd,
        stdio: ["ignore", "pipe", "pipe"],
        env: { ...process.env, NO_COLOR: "1", FORCE_COLOR: "0" },
      });
      let text = "";
      child.stdout.on("data", (chunk: Buffer) => (text += chunk.toString()));
      child.stderr.on("data", (chunk: Buffer) => (text += chunk.toString()));
      child.on("error", reject);
      child.on("close", (status) => resolve({ status, text }));
    });
  } finally {
    done();
  }
};

/** The lines of a tool's output that hold something. */
export const linesOf = (text: string): readonly string[] => text.split("\n").filter((line) => line.trim() !== "");
