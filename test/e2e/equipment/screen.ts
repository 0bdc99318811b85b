/** A screen to draw windows on: the one that is there, else a virtual one that ends with the run. */
import { type ChildProcess, spawn } from "node:child_process";

export interface Screen {
  readonly display: string;
  close(): void;
}

const START_MS = 20_000;

/** The server writes the number it took to the file descriptor that it is given. */
const numberFrom = (server: ChildProcess): Promise<string> =>
  new Promise((resolve, reject) => {
    const timer = setTimeout(() => reject(new Error("Xvfb did not start in time")), START_MS);
    server.on("error", (error) => reject(new Error(`Xvfb cannot be started (${error.message}); Debian package xvfb`)));
    server.on("exit", (status) => reject(new Error(`Xvfb ended with ${status}`)));
    server.stdio[3]?.on("data", (chunk: Buffer) => {
      clearTimeout(timer);
      resolve(chunk.toString().trim());
    });
  });

/** Uses DISPLAY if it is set (or a system that needs none); else starts Xvfb. Throws where there is no Xvfb. */
export const openScreen = async (): Promise<Screen> => {
  const present = process.env["DISPLAY"];
  if (process.platform !== "linux") return { display: "", close: () => {} };
  if (present !== undefined && present !== "") return { display: present, close: () => {} };
  const server = spawn("Xvfb", ["-displayfd", "3", "-screen", "0", "1920x1200x24", "-nolisten", "tcp"], {
    stdio: ["ignore", "ignore", "ignore", "pipe"],
  });
  const display = `:${await numberFrom(server)}`;
  return { display, close: () => server.kill() };
};
