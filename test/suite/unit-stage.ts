/** Unit, property, published and crash tests (Vitest). */
import { rmSync } from "node:fs";
import { join } from "node:path";
import { root } from "../e2e/equipment/project.ts";
import { type NotRun, type StageResult, readReport, runShown } from "./stage.ts";

interface UnitReport {
  readonly numPassedTests: number;
  readonly numFailedTests: number;
  readonly testResults: readonly {
    readonly name: string;
    readonly status: string;
    readonly assertionResults: readonly { readonly status: string; readonly fullName: string }[];
  }[];
}

const stage = "unit tests";

const notRunOf = (report: UnitReport): readonly NotRun[] =>
  report.testResults.flatMap((file) =>
    file.assertionResults
      .filter((result) => result.status !== "passed" && result.status !== "failed")
      .map((result) => ({ name: result.fullName, why: "skipped in its file" })),
  );

export const unitStage = async (): Promise<StageResult> => {
  const reportPath = join(root, "out/unit-report.json");
  rmSync(reportPath, { force: true });
  const status = await runShown("vitest", [
    "run",
    "--config",
    "test/vitest.config.ts",
    "--reporter=default",
    "--reporter=json",
    `--outputFile.json=${reportPath}`,
  ]);
  const report = readReport(reportPath) as UnitReport | null;
  if (report === null) return { stage, passed: 0, failed: 1, notRun: [] };
  // A file that does not even load has no results of its own.
  const unloaded = report.testResults.filter(
    (file) => file.status === "failed" && !file.assertionResults.some((result) => result.status === "failed"),
  ).length;
  const failed = report.numFailedTests + unloaded;
  return {
    stage,
    passed: report.numPassedTests,
    failed: status !== 0 && failed === 0 ? 1 : failed,
    notRun: notRunOf(report),
  };
};
