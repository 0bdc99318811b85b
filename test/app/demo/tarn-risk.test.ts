/** What the demonstration's stated inputs tell: the baseline hardly holds, each of the other cases is likelier to. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { demoTarn } from "../../../app/demo/tarn.ts";
import { planView } from "../../../app/ledger/plan-view.ts";
import { answerOf } from "../../../app/risk/answer-of.ts";
import { createKernel, runBlocks, tallyFor } from "../../../app/risk/run-blocks.ts";
import { loadDocument } from "../../../db/ledger.ts";

const folder = mkdtempSync(join(tmpdir(), "coldstock-tarn-risk-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test("Tarn's baseline hardly ever flies all its sorties; both cures are likelier to, and what is assumed is counted", () => {
  const store = loadDocument(join(folder, "tarn.coldstock"), demoTarn());
  const answerFor = (planCaseId: string) => {
    const { plan, readings } = planView(store, planCaseId);
    const kernel = createKernel({ plan, readings, seed: 1, bandsAt: [], variant: {} });
    const tally = tallyFor(kernel, 0);
    runBlocks(kernel, tally, 0, 32);
    const identity = { seed: 1, inputHash: "", kernelVersion: 1 };
    return answerOf(kernel.replicator.model, tally, identity, "number reached");
  };
  const baseline = answerFor("baseline");
  expect(baseline.allFlyWhenPlanned.value).toBeLessThan(0.25);
  for (const cure of ["extra-packhorse", "cached-return"])
    expect(answerFor(cure).allFlyWhenPlanned.value).toBeGreaterThan(baseline.allFlyWhenPlanned.value + 0.1);
  expect(baseline.inputs.assumed).toBeGreaterThan(0);
  expect(baseline.inputs.assumed).toBeLessThan(baseline.inputs.count);
  store.close();
});
