/**
 * Coolers: 19.2 W at 20 K for about 1.8 kW and 106 kg (Q, NTRS 20180004709); zero boil-off pays in mass after under a week
 * for oxygen, two weeks for methane, about two months for hydrogen (P, Plachta and Kittel, AIAA 2002-3589, abstract).
 */
import { expect, test } from "vitest";
import { boiledKgPerDay } from "../../app/storage/boil-off.ts";
import { coolerPaysAfterDays } from "../../app/storage/cooler.ts";
import { heatBudget } from "../../app/storage/heat-budget.ts";
import { saturationAtPressure } from "../../app/fluid/saturation.ts";
import { ASSUMED_SUPPLY_KG_PER_W } from "../../app/storage/storage-sheet.ts";
import type { Cooler } from "../../app/entity/heat-balance.ts";

const twentyKelvin: Cooler = {
  name: "20 K cooler",
  lift: [{ temperatureK: 20, liftW: 19.2 }],
  powerW: 1800,
  massKg: 106,
  isRunning: true,
  note: "NTRS 20180004709, as quoted",
};

test("19.2 W at 20 K keep 3.72 kg of hydrogen a day from boiling (Q with E)", () => {
  const budget = heatBudget({
    kind: "heat balance",
    fluid: "H2",
    pressureKPa: 101.325,
    insulation: null,
    paths: [{ cause: "other", label: "all heat", heatW: 50, note: "" }],
    environmentFactor: 1,
    coolers: [twentyKelvin],
  });
  expect(budget.liftW).toBe(19.2);
  expect(budget.coolerPowerW).toBe(1800);
  const saved = boiledKgPerDay(budget.heatInW - budget.netW, budget.state.vaporisationKJPerKg);
  expect(saved).toBeCloseTo(19.2 * 0.193693, 3);
});

test("it pays after about two months for hydrogen, the assumed supply mass included (P, Q)", () => {
  const saved = boiledKgPerDay(19.2, saturationAtPressure("H2", 101.325).vaporisationKJPerKg);
  const days = coolerPaysAfterDays(twentyKelvin, ASSUMED_SUPPLY_KG_PER_W, saved)!;
  expect(days).toBeGreaterThan(45);
  expect(days).toBeLessThan(75);
});
