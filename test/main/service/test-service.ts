/** A service over real ledger files in a folder of the test's own, with a clock and ids that repeat. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { revisionIn } from "../../../db/read-only-copy.ts";
import { keepCopies } from "../../../main/copies/keep-copies.ts";
import { databaseFiles } from "../../../main/service/database-files.ts";
import type { Environment } from "../../../main/service/environment.ts";
import { inlineRunner, type WorkRunner } from "../../../main/service/work/runner.ts";
import { makeService, type Service } from "../../../main/service/service.ts";

export interface TestService {
  readonly service: Service;
  readonly folder: string;
  /** What was written to the log. */
  readonly defects: readonly string[];
  path(name: string): string;
  end(): Promise<void>;
}

export const testEnvironment = (defects: string[]): Environment => {
  let count = 0;
  return {
    now: () => Date.UTC(2031, 5, 1) + ++count,
    author: () => "tester",
    newId: (prefix) => `${prefix}-${++count}`,
    logDefect: (where, error) => {
      defects.push(`${where}: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`);
      return "log-id";
    },
  };
};

export const startTestService = (runner: WorkRunner = inlineRunner()): TestService => {
  const folder = mkdtempSync(join(tmpdir(), "coldstock-service-"));
  const defects: string[] = [];
  const copies = keepCopies(() => join(folder, "data"), revisionIn);
  const service = makeService({ environment: testEnvironment(defects), files: databaseFiles, copies, runner });
  return {
    service,
    folder,
    defects,
    path: (name) => join(folder, `${name}.coldstock`),
    end: async () => {
      await service.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
};
