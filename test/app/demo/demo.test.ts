/** The demonstrations do what their descriptions say, when kept in a real ledger file. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { demoBeck } from "../../../app/demo/beck.ts";
import { demoTarn } from "../../../app/demo/tarn.ts";
import {
  heronCached,
  heronDirect,
  heronIntegrated,
  heronLander,
  heronMission,
  heronRidge,
} from "../../../app/demo/heron.ts";
import { forecast } from "../../../app/forecast/forecast.ts";
import { rateOf } from "../../../app/storage/loss-rate.ts";
import { planView } from "../../../app/ledger/plan-view.ts";
import { checkSentence } from "../../../app/sortie/check-sentence.ts";
import { sortieSheet } from "../../../app/sortie/sheet.ts";
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

test("Tarn's hydrogen is kept by two coolers: less lost than passive storage is quoted for, about that with them off", () => {
  const periods = demoTarn().entities.lossPeriod.filter(({ tankId }) => tankId === "tarn-hydrogen");
  const lostIn = (reason: string): number => rateOf(periods.find((row) => row.reason === reason)!.basis).cKgPerDay;
  // 0.127 %/day (Q, passive storage near Earth) of the 12 t that the tank holds in the middle of the campaign.
  const passiveKg = 0.00127 * 12_000;
  expect(lostIn("cooler running")).toBeLessThan(0.7 * passiveKg);
  expect(lostIn("cooler outage") / passiveKg).toBeGreaterThan(0.8);
  expect(lostIn("cooler outage") / passiveKg).toBeLessThan(1.3);
});

test("Tarn's readings scatter as their uncertainty says: χ² of all 18 about the true levels within 95 %, each tank's too", () => {
  const document = demoTarn();
  const sums = [...Map.groupBy(document.readings, ({ tankId }) => tankId)].map(([tankId, readings]) => {
    // The books follow the gauge: what each reading was off is the sum of all that was found unaccounted up to it.
    const ids = new Map(document.entries.map((entry) => [entry.id, entry]));
    let offKg = 0;
    return readings.reduce((sum, reading) => {
      const entry = ids.get(reading.entryId ?? "")!;
      const astray = entry.postings.filter(({ account }) => account.kind === "unaccounted");
      offKg -= astray.reduce((all, { grams }) => all + grams, 0) / 1000;
      expect(tankId).toMatch(/^tarn-/);
      return sum + (offKg / reading.sigmaKg) ** 2;
    }, 0);
  });
  // Tables of χ²: 6 degrees of freedom 1.237 to 14.449, 18 degrees 8.231 to 31.526 (2.5 % and 97.5 %).
  for (const sum of sums) {
    expect(sum).toBeGreaterThan(1.237);
    expect(sum).toBeLessThan(14.449);
  }
  const all = sums.reduce((a, b) => a + b, 0);
  expect(all).toBeGreaterThan(8.231);
  expect(all).toBeLessThan(31.526);
});

test("Heron's sortie starts each engine eight times: down and up twice each, and two burns a transfer each way", () => {
  for (const profile of [heronDirect, heronCached, heronIntegrated]) {
    const sheet = sortieSheet(heronLander, profile, heronMission, demoTarn().entities.propellant);
    expect(sheet.ignitions).toBe(8);
    expect(sheet.durationDays).toBe(14);
    expect(sheet.findings).toEqual([]);
  }
});

test("Heron's stay on the ridge is a day short of the orbit's next pass, and the sheet says so", () => {
  const { findings } = sortieSheet(heronLander, heronRidge, heronMission, demoTarn().entities.propellant);
  expect(findings.map(({ kind }) => kind)).toEqual(["surface stay"]);
});

test("the integrated ascent is above its stated 12 km of terrain when the engines stop", () => {
  const sheet = sortieSheet(heronLander, heronIntegrated, heronMission, demoTarn().entities.propellant);
  const ascent = sheet.legs.find(({ name }) => name === "ascent to low orbit")!;
  expect(ascent.flown!.turnHeightM).toBeGreaterThan(12_000);
  const check = sheet.checks.find(({ kind }) => kind === "terrain clearance")!;
  expect(check).toMatchObject({ isMet: true, clearM: 12_000, cutOffM: ascent.flown!.turnHeightM });
  expect(checkSentence(check, String)).toMatch(/^The engines stop 17\.\d km up on the ascent; 12\.0 km of ground/);
});

test("an integrated ascent that states no ground to clear is a finding that says so", () => {
  const steps = heronIntegrated.steps.map((step) =>
    step.kind === "burn" && step.phase === "ascent"
      ? { ...step, deltaV: { kind: "computed ascent" as const, orbitKm: 100, riseM: 30, allowanceMPerS: 30 } }
      : step,
  );
  const profile = { ...heronIntegrated, steps };
  const { findings } = sortieSheet(heronLander, profile, heronMission, demoTarn().entities.propellant);
  expect(findings.map((check) => checkSentence(check, String))).toEqual([expect.stringContaining("none is stated")]);
});

test("the return of the recorded sortie books boil-off aboard, crew and power, and burns apart, and adds up", () => {
  const back = demoTarn().entries.find(({ kind }) => kind === "return")!;
  const kgOf = (kind: string, propellantId: string): number =>
    back.postings.reduce(
      (sum, { account, grams, ...row }) =>
        account.kind === kind && row.propellantId === propellantId ? sum + grams / 1000 : sum,
      0,
    );
  // Two persons for 14 days at 0.895 kg (Q), and 3·2 + 4·12 = 54 kW·days = 1296 kWh at 0.33164 kg of oxygen (F).
  expect(kgOf("consumed", "oxygen")).toBeCloseTo(2 * 14 * 0.895 + 1296 * 0.33164, 2);
  expect(kgOf("consumed", "hydrogen")).toBeCloseTo(1296 * 0.04179, 2);
  expect(kgOf("boil-off", "hydrogen")).toBeGreaterThan(30);
  expect(kgOf("burned", "hydrogen")).toBeGreaterThan(kgOf("boil-off", "hydrogen"));
  for (const id of ["hydrogen", "oxygen", "hydrazine"])
    expect(back.postings.reduce((sum, row) => (row.propellantId === id ? sum + row.grams : sum), 0)).toBe(0);
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
