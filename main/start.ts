/** `npm start`: the desktop where its runtime can be had, else, having said why not, the browser host. */
import { spawn, spawnSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join, resolve } from "node:path";
import { hasScreen } from "./browser/open-in-browser.ts";

const projectFolder = join(import.meta.dirname, "..", "..");
const given = process.argv.slice(2).map((argument) => (argument.startsWith("-") ? argument : resolve(argument)));

/** How long a desktop must have stood to be taken for started, ms. */
const STANDING_MS = 5000;

type Runtime = { readonly path: string } | { readonly missing: string };

/** The executable that the electron package has put in its place, if it has. */
const installed = (packageFolder: string): string | null => {
  const note = join(packageFolder, "path.txt");
  if (!existsSync(note)) return null;
  const path = join(packageFolder, "dist", readFileSync(note, "utf8"));
  return existsSync(path) ? path : null;
};

const fetched = (packageFolder: string): Runtime => {
  console.log("Fetching the desktop's runtime (once) …");
  const run = spawnSync(process.execPath, [join(packageFolder, "install.js")], { encoding: "utf8" });
  const path = installed(packageFolder);
  if (path !== null) return { path };
  const reason = run.stderr.split("\n").find((line) => line.includes("Error"));
  return { missing: `the desktop's runtime could not be fetched (${reason?.trim() ?? "no reason given"})` };
};

const runtime = (): Runtime => {
  if (!hasScreen()) return { missing: "there is no screen here" };
  const named = process.env["COLDSTOCK_ELECTRON"];
  if (named !== undefined && named !== "")
    return existsSync(named) ? { path: named } : { missing: `there is no executable at ${named}` };
  if (process.platform === "linux" && process.getuid?.() === 0)
    return { missing: "the desktop's sandbox does not run for the root user" };
  try {
    const packageFolder = dirname(createRequire(import.meta.url).resolve("electron/package.json"));
    const path = installed(packageFolder);
    return path === null ? fetched(packageFolder) : { path };
  } catch {
    return { missing: "the desktop's runtime is not installed (npm ci installs it)" };
  }
};

const runBrowserHost = (why: string): void => {
  console.log(`Coldstock opens in the browser, because ${why}.`);
  const child = spawn(process.execPath, [join(import.meta.dirname, "browser.js"), ...given], { stdio: "inherit" });
  for (const signal of ["SIGINT", "SIGTERM"] as const) process.on(signal, () => child.kill(signal));
  child.on("exit", (code) => process.exit(code ?? 1));
};

const runDesktop = (executable: string): void => {
  const startedAt = performance.now();
  const child = spawn(executable, [projectFolder, ...given], { stdio: "inherit" });
  const failed = (why: string): void => {
    if (performance.now() - startedAt < STANDING_MS) runBrowserHost(why);
    else process.exit(1);
  };
  for (const signal of ["SIGINT", "SIGTERM"] as const) process.on(signal, () => child.kill(signal));
  child.on("error", (error) => failed(`the desktop could not be started (${error.message})`));
  child.on("exit", (code, signal) => {
    if (code === 0 || signal === "SIGINT" || signal === "SIGTERM") process.exit(0);
    failed(`the desktop stopped as it started (${code === null ? String(signal) : `code ${code}`})`);
  });
};

const found = runtime();
if ("path" in found) runDesktop(found.path);
else runBrowserHost(found.missing);
