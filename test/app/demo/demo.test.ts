/** The demonstrations do what their descriptions say, when kept in a real ledger file. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { demoBeck } from "../../../app/demo/beck.ts";
import { demoTarn } from "../../../app/demo/tarn.ts";
import { forecast } from "../../../app/forecast/forecast.ts";
import { rateOf } from "../../../app/forecast/loss-rate.ts";
import { planView } from "../../../app/ledger/plan-view.ts";
import { glance } from "../../../app/supply/glance.ts";
import { loadDocument } from "../../../db/ledger.ts";

const folder = mkdtempSync(join(tmpdir(), "coldstock-demo-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const look = (name: string, document: ReturnType<typeof demoTarn>) => {
  const store = loadDocument(join(folder, name), document);
  const cases = new Map(
    document.entities.planCase.map(({ id }) => {
      const { plan } = planView(store, id);
      return [id, glance(plan, forecast(plan))] as const;
    }),
  );
  const verified = store.verify();
  store.close();
  return { cases, verified };
};

const statuses = (seen: ReturnType<typeof glance> | undefined) => seen?.sorties.map(({ status }) => status);

test("in Tarn's baseline one later sortie is short of hydrogen; each of the other cases cures it", () => {
  const { cases } = look("tarn.coldstock", demoTarn());
  expect(statuses(cases.get("baseline"))).toEqual(["supplied", "supplied", "supplied", "short", "supplied"]);
  expect(cases.get("baseline")?.sorties[3]?.limitingPropellantId).toBe("hydrogen");
  expect(statuses(cases.get("extra-packhorse"))).toEqual(Array(5).fill("supplied"));
  expect(statuses(cases.get("cached-return"))).toEqual(Array(5).fill("supplied"));
});

test("a sortie of Heron needs 40 to 50 t of propellant (common practice, no source)", () => {
  const { cases } = look("tarn-demand.coldstock", demoTarn());
  const needed = cases.get("baseline")?.sorties[0]?.lines.reduce((sum, line) => sum + line.requiredKg, 0) ?? 0;
  expect(needed).toBeGreaterThan(40_000);
  expect(needed).toBeLessThan(50_000);
});

test("the books of both demonstrations balance and their files are sound", () => {
  expect(look("tarn-sound.coldstock", demoTarn()).verified).toMatchObject({ isSound: true, faults: [] });
  const beck = look("beck.coldstock", demoBeck());
  expect(beck.verified.isSound).toBe(true);
  expect(statuses(beck.cases.get("first-plan"))).not.toContain("short");
});

test("half a year of records: a late flight, a cooler outage, monthly readings", () => {
  const document = demoTarn();
  expect(document.readings).toHaveLength(18);
  expect(document.entities.lossPeriod.some(({ reason }) => reason === "cooler outage")).toBe(true);
  const span = Math.max(...document.entries.map(({ at }) => at)) - Math.min(...document.readings.map(({ at }) => at));
  expect(span / 86_400_000).toBeGreaterThan(145);
});

test("Tarn's oxygen is lost by a heat balance: about what is quoted for passive storage, and its cooler's lift more in the outage", () => {
  const periods = demoTarn().entities.lossPeriod.filter(({ tankId }) => tankId === "tarn-oxygen");
  expect(periods.every(({ basis }) => basis.kind === "heat balance")).toBe(true);
  const lostIn = (reason: string): number => rateOf(periods.find((row) => row.reason === reason)!.basis).cKgPerDay;
  // 0.016 %/day (Q, passive storage near Earth) of the 40 t that the tank holds about half the time.
  expect(lostIn("shaded, cooler running") / 40_000).toBeGreaterThan(0.00014);
  expect(lostIn("shaded, cooler running") / 40_000).toBeLessThan(0.00018);
  // 34.11 W of lift at 90.19 K, 0.405527 kg a day boiled per watt (E).
  const extra = lostIn("oxygen cooler outage") - lostIn("shaded, cooler running");
  expect(extra).toBeCloseTo(34.113 * 0.405527, 2);
});
