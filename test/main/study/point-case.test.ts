/** A point of a study as a plan case, on a real ledger: supplied as the point is, the plan it came from as it was, undone in one step. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { compile } from "../../../app/forecast/compile.ts";
import { createEngine } from "../../../app/forecast/propagate.ts";
import { inputOffers } from "../../../app/study/offers.ts";
import { parseStudy } from "../../../app/study/resolve.ts";
import { prepareStudy } from "../../../app/study/study.ts";
import { supplyRow } from "../../../app/study/supply-row.ts";
import { composeService } from "../../../main/service/compose.ts";
import { gridValue } from "../../../app/study/values.ts";

const service = composeService(false, () => undefined);
const folder = mkdtempSync(join(tmpdir(), "coldstock-point-"));
beforeAll(async () => {
  const made = await service.call("ledger.demo", { path: join(folder, "tarn.coldstock"), which: "tarn" });
  if (!made.ok) throw new Error(made.failure.message);
});
afterAll(async () => {
  await service.close();
  rmSync(folder, { recursive: true });
});

const planOf = async (planCaseId: string) => {
  const view = await service.call("plan.view", { planCaseId });
  if (!view.ok) throw new Error(view.failure.message);
  return view.value.plan;
};
const supplyOf = (plan: Awaited<ReturnType<typeof planOf>>) => supplyRow(createEngine(compile(plan)).go(), [], false);

/** What all plan cases share, or what the supply takes no notice of. */
const sharedQuantities = new Set(["tank size", "reserve"]);

test("every input that is offered, at one of its values: the new case is supplied as the point, or it is refused in words", async () => {
  const plan = await planOf("baseline");
  const offers = inputOffers(plan);
  expect(new Set(offers.map(({ quantity }) => quantity)).size).toBeGreaterThan(8);
  for (const [place, { input, isForRisk, quantity, least, most }] of offers.entries()) {
    const { values } = input;
    const value = values.kind === "list" ? (values.list.at(-1) ?? 0) : gridValue(values, 7, 11);
    expect(value).toBeGreaterThanOrEqual(least);
    expect(value).toBeLessThanOrEqual(most);
    const asked = parseStudy({
      name: "study",
      inputs: [input],
      design: { kind: "grid" },
      ask: [{ kind: "supply", each: false }, ...(isForRisk ? [{ kind: "risk", runs: 64 }] : [])],
    });
    const newId = `point-${place}`;
    const opened = await service.call("study.open", {
      planCaseId: "baseline",
      asked,
      values: [value],
      newId,
      name: `Point ${place}`,
    });
    if (sharedQuantities.has(quantity)) {
      expect(opened).toMatchObject({ ok: false, failure: { code: "refused" } });
      continue;
    }
    if (!opened.ok) throw new Error(`${quantity}: ${opened.failure.message}`);
    const wanted = supplyOf(prepareStudy({ plan, readings: [], asked }).planAt([value]));
    expect([quantity, ...supplyOf(await planOf(newId))]).toEqual([quantity, ...wanted]);
    const undone = await service.call("plan.undo", {});
    if (!undone.ok) throw new Error(undone.failure.message);
  }
  expect(await planOf("baseline")).toEqual(plan);
});

test("a probability at the point is stated in the case, in the place of what was stated before", async () => {
  const plan = await planOf("baseline");
  const offer = inputOffers(plan).find(({ quantity }) => quantity === "reliability");
  if (offer === undefined) throw new Error("no offer");
  const asked = parseStudy({ name: "s", inputs: [offer.input], design: { kind: "grid" }, ask: [{ kind: "risk" }] });
  const opened = await service.call("study.open", {
    planCaseId: "baseline",
    asked,
    values: [0.97],
    newId: "risky",
    name: "Risky",
  });
  if (!opened.ok) throw new Error(opened.failure.message);
  const { input } = offer;
  const classId = input.quantity === "reliability" ? input.class : "";
  const stated = (await planOf("risky")).riskInputs.filter(
    ({ uncertainty: { quantity, of } }) =>
      quantity === "flight loss" && of.kind === "craft class" && of.craftClassId === classId,
  );
  expect(stated).toHaveLength(1);
  expect(stated[0]?.uncertainty.law).toMatchObject({ kind: "probability" });
});

test("values that cannot be are refused, and nothing is written", async () => {
  const before = await service.call("service.hello", {});
  const asked = parseStudy({
    name: "s",
    inputs: [{ quantity: "loss factor", values: { kind: "list", list: [1] } }],
    design: { kind: "grid" },
    ask: [{ kind: "supply" }],
  });
  for (const values of [[-1], [1, 2]])
    expect(
      await service.call("study.open", { planCaseId: "baseline", asked, values, newId: "x", name: "X" }),
    ).toMatchObject({ ok: false, failure: { code: "invalid input" } });
  expect(await service.call("service.hello", {})).toEqual(before);
});
