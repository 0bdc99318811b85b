/**
 * `npm test`: unit tests, then the build, then end to end in Chromium and in Electron. Says by name what it could not
 * run and why; with CI=true that counts as failed. The last line is `N passed, N failed` (and `, N skipped`).
 */
import { buildStage } from "./suite/build-stage.ts";
import { endToEndStage } from "./suite/end-to-end-stage.ts";
import type { StageResult } from "./suite/stage.ts";
import { unitStage } from "./suite/unit-stage.ts";

const results: StageResult[] = [await unitStage()];

console.log("\nbuilding …");
const built = await buildStage();
results.push(built);

if (built.failed === 0) results.push(await endToEndStage());
else
  results.push({
    stage: "end to end",
    passed: 0,
    failed: 0,
    notRun: [{ name: "end to end", why: "the project does not build" }],
  });

console.log("");
for (const { stage, passed, failed, notRun } of results) {
  console.log(`${stage}: ${passed} passed, ${failed} failed, ${notRun.length} not run`);
  for (const { name, why } of notRun) console.log(`  NOT RUN ${name}: ${why}`);
}

const sum = (count: (result: StageResult) => number): number =>
  results.reduce((total, result) => total + count(result), 0);
const left = sum((result) => result.notRun.length);
const mustRunAll = process.env["CI"] === "true";
if (mustRunAll && left > 0) console.log(`Nothing may be left out here, so the ${left} not run count as failed.`);
const passed = sum((result) => result.passed);
const failed = sum((result) => result.failed) + (mustRunAll ? left : 0);
process.exitCode = failed > 0 || passed === 0 ? 1 : 0;
console.log(`${passed} passed, ${failed} failed${!mustRunAll && left > 0 ? `, ${left} skipped` : ""}`);
