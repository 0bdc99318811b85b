/** A programme in outline becomes a ledger whose supply check is right by hand. */
import { expect, test } from "vitest";
import { type Outline, maximumFillKg, outlineFaults } from "../../../renderer/start/outline.ts";
import { outlineStep } from "../../../renderer/start/outline-step.ts";
import { isSetUp, setupSteps } from "../../../renderer/start/setup-steps.ts";
import { templates } from "../../../renderer/start/templates.ts";
import { checkEntity } from "../../../renderer/editing/editing.ts";
import { tabledPropellants } from "../../../renderer/names/tabled-propellants.ts";
import { composeService } from "../../../main/service/compose.ts";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

const beginsAt = Date.parse("2033-01-01T00:00:00Z");

const small = (): Outline => {
  const outline = templates.find(({ id }) => id === "two")?.outline;
  if (outline === null || outline === undefined) throw new Error("there is no such template");
  const figures = { volumeM3: 100, ullagePercent: 5, openingKg: 3000, lossPercentPerDay: 0, neededKg: 4000 };
  return {
    ...outline,
    beginsAt,
    daysAway: 14,
    tankers: outline.tankers.map((row) => ({ ...row, transitDays: 7, berthDays: 2 })),
    propellants: outline.propellants.map((row) => ({ ...row, ...figures, broughtKg: [2000, null] })),
  };
};

test("the density of each propellant is that of the normal boiling point, within 0.1 % of the figures of the trade (common practice, no source)", () => {
  const usual = { H2: 70.8, O2: 1141, CH4: 422.4 };
  for (const { fluid, densityKgPerM3 } of tabledPropellants)
    expect(Math.abs(densityKgPerM3 / usual[fluid] - 1)).toBeLessThan(1e-3);
});

test("100 m³ with 5 % ullage hold 6,729 kg of hydrogen of 70.83 kg/m³, to the kilogram", () => {
  const row = small().propellants[0];
  if (row === undefined) throw new Error("there is no propellant");
  expect(Math.abs((maximumFillKg(row) ?? 0) - 6729)).toBeLessThanOrEqual(1);
});

test("nothing is given in advance that looks like a figure of the planner's", () => {
  for (const { outline } of templates)
    for (const row of outline?.propellants ?? [])
      expect([
        row.volumeM3,
        row.ullagePercent,
        row.openingKg,
        row.lossPercentPerDay,
        row.neededKg,
        ...row.broughtKg,
      ]).toEqual([null, null, null, null, null, null, null]);
});

test("what is missing is asked for at its field, and a whole outline has no fault", () => {
  expect(outlineFaults(small())).toEqual({});
  const unsaid = templates[0]?.outline;
  expect(Object.keys(outlineFaults(unsaid as Outline))).toContain("propellants.1.volumeM3");
  const twice = { ...small(), propellants: small().propellants.map((row) => ({ ...row, what: tabledPropellants[0] })) };
  expect(outlineFaults(twice)).toEqual({ "propellants.1.what": "Chosen twice." });
  const tooMuch = { ...small(), propellants: small().propellants.map((row) => ({ ...row, openingKg: 500_000 })) };
  expect(Object.keys(outlineFaults(tooMuch))).toEqual(["propellants.0.openingKg", "propellants.1.openingKg"]);
});

test("every row that it makes is one that the rules take, also where names are alike", () => {
  const alike = {
    ...small(),
    depot: "Ground",
    lander: "Tanker A",
    tankers: small().tankers.map((row) => ({ ...row, name: "Tanker A" })),
  };
  const { changes } = outlineStep(alike, "baseline");
  const ids = changes.flatMap((change) => (change.op === "put" ? [change.value.id] : []));
  expect(new Set(ids).size).toBe(ids.length);
  for (const change of changes) if (change.op === "put") expect(checkEntity(change.kind, change.value)).toBeNull();
});

test("in a real ledger it is one step, and the guide then asks for flights and sorties alone", async () => {
  const folder = mkdtempSync(join(tmpdir(), "coldstock-outline-"));
  const service = composeService(false, () => undefined);
  const made = await service.call("ledger.create", { path: join(folder, "new.coldstock"), programme: "Own" });
  expect(made.ok).toBe(true);
  const planCase = {
    id: "first",
    name: "First",
    basedOnId: null,
    shortPolicy: "stand down",
    horizonAt: beginsAt + 1e11,
    position: 0,
    note: "",
  } as const;
  await service.call("plan.edit", {
    label: "Begin",
    reason: "",
    changes: [{ op: "put", kind: "planCase", value: planCase }],
  });
  const { changes, openings } = outlineStep(small(), "first");
  const reply = await service.call("plan.edit", {
    label: "Outline",
    reason: "",
    changes: [...changes],
    openings: [...openings],
  });
  expect(reply).toMatchObject({ ok: true, value: { asOfAt: beginsAt } });
  const view = await service.call("plan.view", { planCaseId: "first" });
  if (!view.ok) throw new Error(view.failure.message);
  const { plan } = view.value;
  expect(plan.opening.map(({ massKg }) => massKg)).toEqual([3000, 3000]);
  expect(isSetUp(plan)).toBe(false);
  expect(setupSteps(plan).flatMap(({ kind, isDone }) => (isDone ? [] : [kind]))).toEqual(["flight", "sortie", null]);
  await service.close();
  rmSync(folder, { recursive: true, force: true });
});
