/** The browser host as a program: serves the page on this machine alone until it is stopped (Ctrl+C). */
import { join, resolve } from "node:path";
import { logTo } from "../log-file.ts";
import { builtFiles } from "../page/built-files.ts";
import { dataFolder } from "../page/program-folder.ts";
import { openDemonstration } from "../page/demonstration.ts";
import { composeService } from "../service/compose.ts";
import { systemEnvironment } from "../service/environment.ts";
import { openInBrowser } from "./open-in-browser.ts";
import { startBrowserHost } from "./server.ts";

const pageFolder = (): string =>
  import.meta.filename.endsWith(".ts")
    ? join(import.meta.dirname, "..", "..", "out", "renderer")
    : join(import.meta.dirname, "..", "renderer");

const usableFolder = (): string => {
  try {
    return dataFolder();
  } catch (error) {
    console.error(error instanceof Error ? error.message : String(error));
    return process.exit(2);
  }
};
const folder = usableFolder();
const log = logTo(join(folder, "coldstock.log"));
const service = composeService(true, log);

const given = process.argv.slice(2).find((argument) => !argument.startsWith("-"));
const first =
  given === undefined
    ? await openDemonstration("tarn", folder, service.dispatch)
    : await service.call("ledger.open", { path: resolve(given) });
if (!first.ok) console.error(first.failure.message);

const host = await startBrowserHost({
  service,
  page: builtFiles(pageFolder()),
  folder,
  environment: systemEnvironment(log),
});
console.log(`Coldstock is at ${host.address}`);
console.log(`Ledgers are in ${folder}. Enter prints a new address; Ctrl+C stops it; every change is saved.`);
process.stdin.on("data", () => console.log(`Coldstock is at ${host.newAddress()}`));
// A terminal that has gone must not end the host with it, nor keep it from ending.
process.stdin.on("error", () => undefined);
if ("unref" in process.stdin) process.stdin.unref();
if (!process.argv.includes("--print")) openInBrowser(host.address);

let isLeaving = false;
const leave = (): void => {
  if (isLeaving) return;
  isLeaving = true;
  void host
    .close()
    .then(() => service.close())
    .then(() => process.exit(0));
};
process.on("SIGINT", leave);
process.on("SIGTERM", leave);
