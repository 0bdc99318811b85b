/**
 * The service, its worker and the command line as tests start them in processes and threads of their own: built once before the tests,
 * since loading a few hundred sources takes a process four seconds and its bundle a third of one.
 */
import { createHash } from "node:crypto";
import { cpSync, rmSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { rolldown } from "rolldown";
import { quickFolder } from "./quick-folder.ts";

const root = fileURLToPath(new URL("../..", import.meta.url));
const folder = `${root}out/programs`;

/** The data folder of the tests of this checkout. */
export const testHome = join(
  quickFolder(),
  `coldstock-test-home-${createHash("sha256").update(root).digest("hex").slice(0, 12)}`,
);

/** The service, to be started by Node. */
export const serviceProgram = `${folder}/service.js`;
/** The command line. */
export const commandLineProgram = `${folder}/command-line.js`;
/** What the crash tests run under strace. */
export const callsProgram = `${folder}/calls.js`;
export const powerProgram = `${folder}/power.js`;
/** The browser host, with the service within it. */
export const browserProgram = `${folder}/browser.js`;
/** What a worker thread of the service runs. */
export const workerProgram = `${folder}/worker.js`;
/** The same under the name by which the service finds it: the test runner puts this file in the place of the service's own. */
export const workerFile = workerProgram;

/** Packages that look for files beside themselves stay packages, as in the program's own build. */
const readFilesOfTheirOwn = ["better-sqlite3", "pdfkit", "highs", /^write-excel-file/, /^node:/, "electron"];

/** Builds them; called by the test runner before any test. */
export const setup = async (): Promise<void> => {
  rmSync(testHome, { recursive: true, force: true });
  const bundle = await rolldown({
    input: {
      service: `${root}main/service/process.ts`,
      worker: `${root}main/service/work/worker.ts`,
      "command-line": `${root}main/cli/main.ts`,
      browser: `${root}test/crash/browser-host.ts`,
      calls: `${root}test/crash/calls/failing-calls.ts`,
      power: `${root}test/crash/calls/power-work.ts`,
    },
    platform: "node",
    external: readFilesOfTheirOwn,
    // Its paths name declarations, not programs.
    tsconfig: false,
    logLevel: "warn",
  });
  await bundle.write({ dir: folder, format: "es", entryFileNames: "[name].js", chunkFileNames: "[name].js" });
  cpSync(`${root}db/migrations`, `${folder}/migrations`, { recursive: true, filter: (from) => !from.endsWith(".ts") });
};

/** Called by the test runner after the last test. */
export const teardown = (): void => rmSync(testHome, { recursive: true, force: true });
