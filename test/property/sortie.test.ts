/** Properties of the sortie's backward solution over random landers and profiles. */
import { type Arbitrary, array, assert, boolean, double as anyDouble, nat, oneof, property, tuple } from "fast-check";
import { expect, test } from "vitest";
import type { Lander } from "../../app/entity/lander.ts";
import type { ProfileStep, Reserve } from "../../app/entity/profile.ts";
import { sortieSheet } from "../../app/sortie/sheet.ts";
import { burn, densities, nothingAboard, plainLander, profileOf, stay } from "../app/sortie/example.ts";

const double = (min: number, max: number) => anyDouble({ min, max, noNaN: true });

const step: Arbitrary<ProfileStep> = oneof(
  double(0, 1500).map((mPerS) => burn(mPerS)),
  tuple(double(0, 40), double(0, 8)).map(([days, powerKw]) => stay(days, { powerKw })),
  double(0, 60).map((mPerS): ProfileStep => ({
    kind: "thruster burn",
    name: "trim",
    system: "small",
    amount: { kind: "delta-v", mPerS },
    marginPercent: 5,
  })),
  double(0, 400).map((massKg): ProfileStep => ({ kind: "jettison", name: "drop", massKg, tanks: [] })),
);

const reserve: Arbitrary<Reserve> = oneof(
  double(0, 4).map((percent): Reserve => ({ kind: "percent of load", percent })),
  double(0, 150).map((mPerS): Reserve => ({ kind: "delta-v", mPerS })),
  double(0, 900).map((massKg): Reserve => ({ kind: "mass", lines: [{ propellantId: "oxygen", massKg }] })),
);

const lossy: Arbitrary<Lander> = tuple(double(0, 0.02), double(0, 5), double(0, 200), double(0, 3), double(4, 7)).map(
  ([kPerDay, cKgPerDay, residualKg, mixtureSpreadPercent, mixtureRatio]) => ({
    ...plainLander,
    engines: { ...plainLander.engines, mixtureSpreadPercent, mixtureRatio },
    tanks: plainLander.tanks.map((tank) => ({ ...tank, kPerDay, cKgPerDay, residualKg })),
    fuelCells: [
      { propellantId: "hydrogen", kgPerKwh: 0.0418 },
      { propellantId: "oxygen", kgPerKwh: 0.3316 },
    ],
  }),
);

test("the forward run closes, and every kilogram is accounted for", () => {
  assert(
    property(lossy, array(step, { maxLength: 9 }), reserve, (lander, steps, rule) => {
      const sheet = sortieSheet(lander, profileOf(steps, rule), nothingAboard, densities);
      expect(sheet.closure).toBeLessThan(1e-9);
      for (const line of sheet.lines) {
        const out = line.burnedKg + line.lostKg + line.consumedKg + line.leftBehindKg + line.returnKg;
        expect(Math.abs(out - line.loadKg)).toBeLessThan(1e-8 * (1 + line.loadKg));
      }
    }),
    { numRuns: 200 },
  );
});

test("a cache of any size and wait closes too", () => {
  assert(
    property(
      lossy,
      double(0, 30),
      double(0, 600),
      double(0, 0.02),
      boolean(),
      (lander, days, tankKg, kPerDay, keepsTank) => {
        const steps: ProfileStep[] = [
          burn(700),
          {
            kind: "leave cache",
            name: "leave",
            cache: "one",
            tankKg,
            tanks: [{ propellantId: "oxygen", volumeM3: 10, kPerDay, cKgPerDay: 0.1 }],
          },
          burn(1900),
          stay(days, { powerKw: 2 }),
          burn(1900),
          { kind: "take up cache", name: "take", cache: "one", keepsTank, arriveWith: [] },
          burn(800),
        ];
        const sheet = sortieSheet(lander, profileOf(steps), nothingAboard, densities);
        expect(sheet.closure).toBeLessThan(1e-9);
      },
    ),
    { numRuns: 200 },
  );
});

test("without loss and with one Isp, start over end mass is the product of the burns' mass ratios", () => {
  assert(
    property(array(double(0, 1500), { minLength: 1, maxLength: 8 }), (speeds) => {
      const sheet = sortieSheet(plainLander, profileOf(speeds.map((mPerS) => burn(mPerS))), nothingAboard, densities);
      const product = speeds.reduce((ratio, mPerS) => ratio * Math.exp(mPerS / 4412.9925), 1);
      expect(Math.abs(sheet.startMassKg / sheet.endMassKg / product - 1)).toBeLessThan(1e-12);
    }),
  );
});

test("with no Δv and no margin the load is the end state", () => {
  assert(
    property(double(0, 300), double(0, 900), nat(8), (residualKg, reserveKg, burns) => {
      const lander = { ...plainLander, tanks: plainLander.tanks.map((tank) => ({ ...tank, residualKg })) };
      const rule: Reserve = { kind: "mass", lines: [{ propellantId: "hydrogen", massKg: reserveKg }] };
      const steps = Array.from({ length: burns }, () => burn(0));
      const sheet = sortieSheet(lander, profileOf(steps, rule), nothingAboard, densities);
      for (const line of sheet.lines) expect(line.loadKg).toBe(line.returnKg);
      expect(sheet.loadKg).toBeCloseTo(3 * residualKg + reserveKg, 9);
    }),
  );
});

test("more cargo, more Δv or a longer stay never takes less", () => {
  assert(
    property(lossy, double(0, 2000), double(0, 20), double(0, 900), (lander, mPerS, days, extra) => {
      const load = (speed: number, time: number, cargoDownKg: number) =>
        sortieSheet(lander, profileOf([stay(time), burn(speed)]), { ...nothingAboard, cargoDownKg }, densities).loadKg;
      const base = load(mPerS, days, 0);
      expect(load(mPerS + extra, days, 0)).toBeGreaterThanOrEqual(base);
      expect(load(mPerS, days + extra / 100, 0)).toBeGreaterThanOrEqual(base);
      expect(load(mPerS, days, extra)).toBeGreaterThanOrEqual(base);
    }),
  );
});
