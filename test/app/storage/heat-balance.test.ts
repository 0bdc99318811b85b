/** The heat balance as a ledger keeps it, its budget, coolers, seasons; what cannot be is refused with its field. */
import { describe, expect, test } from "vitest";
import { type Cooler, heatBalance, type HeatBalance } from "../../../app/entity/heat-balance.ts";
import { lossBasis } from "../../../app/entity/loss-period.ts";
import { liftAt } from "../../../app/storage/cooler.ts";
import { heatBalanceRate } from "../../../app/storage/heat-balance-rate.ts";
import { heatBudget } from "../../../app/storage/heat-budget.ts";
import { balanceDuring, seasonPeriods } from "../../../app/storage/heat-periods.ts";
import { blanketFlux } from "../../../app/storage/insulation.ts";
import { doubleAluminisedMylarSilkNet } from "../../../app/storage/insulation-material.ts";
import { lockUp } from "../../../app/storage/lock-up.ts";
import { kFromPercent, rateInUnits } from "../../../app/storage/rate-units.ts";
import { storageSheet } from "../../../app/storage/storage-sheet.ts";

const cooler: Cooler = {
  name: "first stage",
  lift: [
    { temperatureK: 80, liftW: 30 },
    { temperatureK: 100, liftW: 50 },
  ],
  powerW: 700,
  massKg: 60,
  isRunning: true,
  note: "",
};

const balance: HeatBalance = {
  kind: "heat balance",
  fluid: "O2",
  pressureKPa: 101.325,
  insulation: {
    kind: "layers",
    areaM2: 50,
    material: doubleAluminisedMylarSilkNet,
    layers: 30,
    layersPerCm: 20,
    hotK: 300,
    residualGasTorr: 0,
    degradationFactor: 2,
  },
  paths: [
    { cause: "penetration", label: "fill line", heatW: 8, note: "steel bellows" },
    { cause: "support", label: "struts", heatW: 12, note: "six, glass fibre" },
  ],
  environmentFactor: 1.1,
  coolers: [cooler],
};

const withLayers = (change: object): HeatBalance =>
  ({ ...balance, insulation: { ...balance.insulation, ...change } }) as HeatBalance;

test("lines sum to the heat in, the factor and the coolers are applied once", () => {
  const budget = heatBudget(balance);
  expect(budget.lines.map((line) => line.label)).toEqual(["Insulation", "fill line", "struts"]);
  // 0.45833 W/m² bare (Keller form at 90.19 K), twice that installed, 50 m², then 20 W of paths.
  expect(budget.describedW).toBeCloseTo(0.45833 * 2 * 50 + 20, 2);
  expect(budget.heatInW).toBeCloseTo(1.1 * budget.describedW, 9);
  expect(budget.liftW).toBeCloseTo(30 + (20 * 10.1878) / 20, 3);
  expect(budget.netW).toBeCloseTo(budget.heatInW - budget.liftW, 9);
  expect(heatBalanceRate(balance).cKgPerDay).toBeCloseTo(budget.netW * 0.405527, 3);
  expect(heatBalanceRate(balance).kPerDay).toBe(0);
});

test.each([
  [70, 0],
  [79.999, 0],
  [80, 30],
  [90, 40],
  [100, 50],
  [150, 50],
])("lift at %d K is %d W: nothing below the table, never more than its last line", (temperatureK, liftW) => {
  expect(liftAt(cooler.lift, temperatureK)).toBeCloseTo(liftW, 9);
});

describe("what cannot be is refused", () => {
  test.each([
    ["no layers", withLayers({ layers: 0 }), "insulation.layers"],
    ["half a layer", withLayers({ layers: 2.5 }), "insulation.layers"],
    ["no layer density", withLayers({ layersPerCm: 0 }), "insulation.layersPerCm"],
    ["outside colder than the liquid", withLayers({ hotK: 85 }), "insulation.hotK"],
    ["pressure off the tables", { ...balance, pressureKPa: 1000 }, "pressureKPa"],
    ["heat below nothing", { ...balance, paths: [{ ...balance.paths[0]!, heatW: -1 }] }, "paths.0.heatW"],
    ["cooler without a line", { ...balance, coolers: [{ ...cooler, lift: [] }] }, "coolers.0.lift"],
    [
      "cooler lines that fall",
      { ...balance, coolers: [{ ...cooler, lift: cooler.lift.toReversed() }] },
      "coolers.0.lift",
    ],
  ])("%s", (_, value, path) => {
    for (const schema of [heatBalance, lossBasis]) {
      const parsed = schema.safeParse(value);
      expect(parsed.error?.issues.map((issue) => issue.path.join("."))).toContain(path);
    }
  });

  test("the form in use is accepted by the schema of loss periods", () => {
    expect(lossBasis.parse(balance)).toEqual(balance);
  });

  test("the correlation itself refuses too", () => {
    const blanket = {
      material: doubleAluminisedMylarSilkNet,
      layers: 10,
      layersPerCm: 20,
      hotK: 300,
      coldK: 90,
      residualGasTorr: 0,
    };
    expect(() => blanketFlux({ ...blanket, layers: 0 })).toThrow(/one layer or more/);
    expect(() => blanketFlux({ ...blanket, hotK: 80 })).toThrow(
      /hot side \(80 K\) is colder than the cold side \(90 K\)/,
    );
    expect(() => blanketFlux({ ...blanket, layersPerCm: Number.NaN })).toThrow(/layer density/);
    expect(() => blanketFlux({ ...blanket, residualGasTorr: -1 })).toThrow(/torr/);
    expect(blanketFlux({ ...blanket, hotK: 90 }).total).toBe(0);
  });

  test("rates and closed tanks", () => {
    expect(() => kFromPercent(100, 1)).toThrow(/100 %/);
    expect(() => kFromPercent(-1, 1)).toThrow(/-1 %/);
    expect(() => lockUp("H2", 1, 101.325, 200)).toThrow(/less than all/);
    expect(() => lockUp("H2", 0.5, 200, 200)).toThrow(/must be above the pressure now/);
  });
});

test("a nearly empty closed tank boils dry before relief", () => {
  const end = lockUp("H2", 0.01, 101.325, 400);
  expect(end.outcome).toBe("dry");
  expect(end.endFillFraction).toBeCloseTo(0, 9);
  expect(end.endKPa).toBeLessThan(400);
});

test("units of one rate: what the coming days really take, never more than all", () => {
  const units = rateInUnits({ kPerDay: 0.001, cKgPerDay: 2 }, 1000, 446.066);
  expect(units.kgPerDay).toBe(3);
  // The definition, by small steps: a thousand a day for 30 days.
  let level = 1000;
  for (let i = 0; i < 30_000; i++) level -= (0.001 * level + 2) / 1000;
  expect(units.percentPerMonth).toBeCloseTo((1000 - level) / 10, 3);
  expect(rateInUnits({ kPerDay: 0, cKgPerDay: 50 }, 10, null).percentPerDay).toBe(100);
  expect(rateInUnits({ kPerDay: 0.1, cKgPerDay: 5 }, 0, null).percentPerDay).toBeNull();
});

const DAY = 86_400_000;

test("seasons: overlapping ones count together, each stretch one period, none where nothing holds", () => {
  const periods = seasonPeriods(
    balance,
    [
      { kind: "environment", factor: 1.5, fromAt: 10 * DAY, untilAt: 30 * DAY, reason: "hot attitude" },
      { kind: "cooler outage", cooler: null, fromAt: 20 * DAY, untilAt: 40 * DAY, reason: "cooler outage" },
      { kind: "cooler outage", cooler: 0, fromAt: 50 * DAY, untilAt: 51 * DAY, reason: "service" },
    ],
    { tankId: "t", planCaseId: null, idStem: "season" },
  );
  expect(periods.map((p) => [p.id, p.fromAt! / DAY, p.untilAt! / DAY, p.reason])).toEqual([
    ["season-1", 10, 20, "hot attitude"],
    ["season-2", 20, 30, "hot attitude, cooler outage"],
    ["season-3", 30, 40, "cooler outage"],
    ["season-4", 50, 51, "service"],
  ]);
  const bases = periods.map((p) => p.basis as HeatBalance);
  expect(bases.map((b) => b.environmentFactor.toFixed(2))).toEqual(["1.65", "1.65", "1.10", "1.10"]);
  expect(bases.map((b) => b.coolers[0]!.isRunning)).toEqual([true, false, false, false]);
  expect(balanceDuring(balance, [])).toEqual(balance);
  expect(() =>
    seasonPeriods(balance, [{ kind: "environment", factor: 1, fromAt: 5, untilAt: 5, reason: "nothing" }], {
      tankId: "t",
      planCaseId: null,
      idStem: "s",
    }),
  ).toThrow(/"nothing" ends before it begins/);
});

test("the sheet: vented with boiled, coolers on and off, hold time where it can be known", () => {
  const sheet = storageSheet(balance, { levelKg: 40_000, volumeM3: 50, reliefKPa: 200 });
  expect(sheet.rateCoolersOff.kgPerDay).toBeGreaterThan(sheet.rate.kgPerDay);
  expect(sheet.rateCoolersOn.kgPerDay).toBeCloseTo(sheet.rate.kgPerDay, 12);
  expect(sheet.ventedKgPerDay / sheet.rate.kgPerDay).toBeCloseTo(1 - 4.4671 / 1141.172, 6);
  expect(sheet.rate.heatW).toBeCloseTo(sheet.budget.netW, 9);
  expect(sheet.coolersPayAfterDays).toBeCloseTo(95 / (40.1878 * 0.405527), 2);
  expect(sheet.hold!.outcome).toBe("relief");
  // The same energy into the same tank: the hold times are to each other as the heat that comes in.
  expect(sheet.hold!.days! / sheet.holdCoolersOff!.days!).toBeCloseTo(sheet.budget.heatInW / sheet.budget.netW, 9);
  expect(sheet.rate.form).toBe("constant");
  expect(storageSheet(balance, { levelKg: 40_000, volumeM3: null, reliefKPa: 200 }).hold).toBeNull();
  expect(storageSheet(balance, { levelKg: 0, volumeM3: 50, reliefKPa: 200 }).rate.percentPerDay).toBeNull();
  const zero = storageSheet(
    { ...balance, coolers: [{ ...cooler, lift: [{ temperatureK: 90, liftW: 500 }] }] },
    { levelKg: 1, volumeM3: null, reliefKPa: null },
  );
  expect(zero.isZeroBoilOff).toBe(true);
  expect(zero.rate.kgPerDay).toBe(0);
});

test("cautions: no insulation, beyond the fit, a factor too good", () => {
  expect(heatBudget({ ...balance, insulation: null }).cautions.join(" ")).toContain("No insulation");
  expect(heatBudget(withLayers({ hotK: 400 })).cautions.join(" ")).toContain("fitted to hot sides");
  expect(heatBudget(withLayers({ degradationFactor: 1 })).cautions.join(" ")).toContain("measured at 1.2 times");
  expect(heatBudget(balance).cautions).toEqual([]);
});
