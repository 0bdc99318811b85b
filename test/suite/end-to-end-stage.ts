/** End to end: Chromium through the browser host, and the real window (Playwright). Says which of them cannot run here. */
import { rmSync } from "node:fs";
import { join } from "node:path";
import { findChromium } from "../e2e/equipment/chromium.ts";
import { findElectron } from "../e2e/equipment/electron.ts";
import { root } from "../e2e/equipment/project.ts";
import { openScreen } from "../e2e/equipment/screen.ts";
import { type NotRun, type StageResult, readReport, runShown } from "./stage.ts";

interface Suite {
  readonly suites?: readonly Suite[];
  readonly specs: readonly {
    readonly title: string;
    readonly file: string;
    readonly tests: readonly { readonly projectName: string; readonly status: string }[];
  }[];
}
interface EndToEndReport {
  readonly suites: readonly Suite[];
  readonly errors: readonly unknown[];
}

const stage = "end to end";

const wordsOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/** Where a project cannot run: why not. */
const equipment: Readonly<Record<string, () => Promise<unknown>>> = {
  chromium: findChromium,
  electron: async () => {
    (await openScreen()).close();
    console.log(`end to end in Electron by ${(await findElectron()).says}`);
  },
};

const testsOf = (suite: Suite): Suite["specs"] => [...suite.specs, ...(suite.suites ?? []).flatMap(testsOf)];

const read = (report: EndToEndReport): Omit<StageResult, "stage"> => {
  const tests = report.suites
    .flatMap(testsOf)
    .flatMap((spec) => spec.tests.map((test) => ({ ...test, name: `${spec.file}: ${spec.title}` })));
  const withStatus = (status: string) => tests.filter((test) => test.status === status);
  return {
    // A test that passed only when it was tried again is no passed test.
    passed: withStatus("expected").length,
    failed: withStatus("unexpected").length + withStatus("flaky").length + report.errors.length,
    notRun: withStatus("skipped").map((test) => ({ name: `${test.projectName} ${test.name}`, why: "skipped" })),
  };
};

export const endToEndStage = async (): Promise<StageResult> => {
  const missing: NotRun[] = [];
  const present: string[] = [];
  for (const [name, find] of Object.entries(equipment)) {
    try {
      await find();
      present.push(name);
    } catch (error) {
      missing.push({ name: `end to end in ${name}`, why: wordsOf(error) });
    }
  }
  if (present.length === 0) return { stage, passed: 0, failed: 0, notRun: missing };
  const reportPath = join(root, "out/end-to-end-report.json");
  rmSync(reportPath, { force: true });
  const projects = present.map((name) => `--project=${name}`);
  const status = await runShown("playwright", ["test", "--config", "test/e2e/playwright.config.ts", ...projects], {
    COLDSTOCK_E2E_REPORT: reportPath,
  });
  const report = readReport(reportPath) as EndToEndReport | null;
  if (report === null) return { stage, passed: 0, failed: 1, notRun: missing };
  const { passed, failed, notRun } = read(report);
  return {
    stage,
    passed,
    failed: status !== 0 && failed === 0 ? 1 : failed,
    notRun: [...missing, ...notRun],
  };
};
