/** A tank whose loss follows from a heat balance, on paper and in the window: form, hold time with both states of its coolers, caution. */
import { expect, test } from "vitest";
import type { HeatBalance } from "../../../app/entity/heat-balance.ts";
import { buildReport } from "../../../app/report/build.ts";
import { doubleAluminisedMylarSilkNet } from "../../../app/storage/insulation-material.ts";
import { exampleContext } from "./example.ts";

const balance: HeatBalance = {
  kind: "heat balance",
  fluid: "H2",
  pressureKPa: 101.325,
  insulation: {
    kind: "layers",
    areaM2: 120,
    material: doubleAluminisedMylarSilkNet,
    layers: 45,
    layersPerCm: 10.055,
    hotK: 305,
    residualGasTorr: 0,
    degradationFactor: 2,
  },
  paths: [],
  environmentFactor: 1,
  coolers: [
    { name: "Cooler", lift: [{ temperatureK: 20, liftW: 20 }], powerW: 3000, massKg: 200, isRunning: true, note: "" },
  ],
};

const words = (basis: HeatBalance | null): string => {
  const context = exampleContext();
  const { view } = context.main;
  const plan = {
    ...view.plan,
    tanks: view.plan.tanks.map((tank) => ({ ...tank, volumeM3: 200 })),
    lossPeriods: view.plan.lossPeriods.map((period) => (basis === null ? period : { ...period, basis })),
  };
  const report = buildReport({ ...context, main: { ...context.main, view: { ...view, plan } } });
  return JSON.stringify(report.sections.map(({ blocks }) => blocks));
};

test("the report says 30 days constant, the hold time with and without coolers, and the caution under 70 K", () => {
  const said = words(balance);
  expect(said).toMatch(/kg\/day by its heat balance, .*% of .* in 30 days \(constant\)/);
  expect(said).toMatch(/Held up to 300 kPa \(assumed\)\. Closed, with the coolers as described \(20\.0 W of lift\): /);
  expect(said).toMatch(/With no cooler running: it reaches that pressure after/);
  expect(said).toMatch(/not tested with cold sides under 70 K; this one is at 20\.[34] K/);
});

test("each loss rate has its form beside it, and no rate is called compound that is not", () => {
  expect(words(balance)).toMatch(/"text":"constant"/);
  expect(words(null)).toMatch(/"text":"compounding"/);
  expect(words(null)).not.toMatch(/by its heat balance/);
});
