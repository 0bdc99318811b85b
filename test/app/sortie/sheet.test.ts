/** The sortie sheet: load, reserve, caches, findings by their numbers, refusals by name. */
import { describe, expect, test } from "vitest";
import { heronCached, heronDirect, heronIntegrated, heronLander, heronMission } from "../../../app/demo/heron.ts";
import { checkSentence } from "../../../app/sortie/check-sentence.ts";
import { demandOf } from "../../../app/sortie/demand.ts";
import { lander as landerSchema } from "../../../app/entity/lander.ts";
import { profile as profileSchema } from "../../../app/entity/profile.ts";
import { sortieSheet } from "../../../app/sortie/sheet.ts";
import { burn, densities, nothingAboard, plainLander, profileOf, stay } from "./example.ts";

const sheetOf = (...args: [...Parameters<typeof profileOf>]) =>
  sortieSheet(plainLander, profileOf(...args), nothingAboard, densities);
const lineOf = (sheet: ReturnType<typeof sortieSheet>, id: string) =>
  sheet.lines.find(({ propellantId }) => propellantId === id)!;

describe("the load", () => {
  test("of 2920 m/s at 450 s on 10 t is 9380.5 kg, six parts oxygen to one of hydrogen", () => {
    const sheet = sheetOf([burn(2920)]);
    expect(sheet.loadKg).toBeCloseTo(9380.5, 0);
    expect(lineOf(sheet, "oxygen").loadKg / lineOf(sheet, "hydrogen").loadKg).toBeCloseTo(6, 9);
  });

  test("with a margin of 10 % is that of 1.1 times the Δv", () => {
    expect(sheetOf([burn(1000, { marginPercent: 10 })]).loadKg).toBeCloseTo(sheetOf([burn(1100)]).loadKg, 6);
  });

  test("carries boil-off and consumption of a stay that comes before a burn", () => {
    const losing = {
      ...plainLander,
      tanks: plainLander.tanks.map((tank) => (tank.propellantId === "hydrogen" ? { ...tank, kPerDay: 0.01 } : tank)),
    };
    const dry = lineOf(sheetOf([burn(2920)]), "hydrogen").loadKg;
    const sheet = sortieSheet(losing, profileOf([stay(10), burn(2920)]), nothingAboard, densities);
    // 10 days at k = 0.01: e^0.1 = 1.1051709.
    expect(lineOf(sheet, "hydrogen").loadKg / dry).toBeCloseTo(1.1051709, 6);
    expect(lineOf(sheet, "oxygen").lostKg).toBe(0);
  });

  test("with thrusters takes their propellant by parts", () => {
    const two = {
      ...plainLander,
      thrusters: [
        {
          name: "small",
          ispS: 300,
          thrustN: 400,
          parts: [
            { propellantId: "oxygen", parts: 1.65 },
            { propellantId: "hydrazine", parts: 1 },
          ],
        },
      ],
    };
    const step = {
      kind: "thruster burn",
      name: "trim",
      system: "small",
      amount: { kind: "mass", massKg: 265 },
      marginPercent: 0,
    } as const;
    const sheet = sortieSheet(two, profileOf([step]), nothingAboard, densities);
    expect(lineOf(sheet, "oxygen").loadKg).toBeCloseTo(165, 9);
    expect(lineOf(sheet, "hydrazine").loadKg).toBeCloseTo(100, 9);
  });

  test("of cargo put off at the surface is not carried up again", () => {
    const unload = { kind: "load change", name: "unload", cargoKg: 0, sortieCargo: "put off", persons: 0 } as const;
    const mission = { cargoDownKg: 1000, cargoUpKg: 0, crew: 0 };
    const sheet = sortieSheet(plainLander, profileOf([burn(2000), unload, burn(2000)]), mission, densities);
    const ratio = Math.exp(2000 / (450 * 9.80665));
    expect(sheet.startMassKg).toBeCloseTo((10_000 * ratio + 1000) * ratio, 3);
    expect(sheet.endMassKg).toBeCloseTo(10_000, 6);
  });
});

describe("the reserve", () => {
  test("of a Δv is enough for exactly that Δv at the end", () => {
    const sheet = sheetOf([burn(2000)], { kind: "delta-v", mPerS: 100 });
    const reserve = sheet.lines.reduce((sum, line) => sum + line.reserveKg, 0);
    expect(450 * 9.80665 * Math.log((10_000 + reserve) / 10_000)).toBeCloseTo(100, 6);
    expect(sheet.endMassKg).toBeCloseTo(10_000 + reserve, 6);
  });

  test("in per cent is that share of each load", () => {
    const sheet = sheetOf([burn(2000)], { kind: "percent of load", percent: 5 });
    for (const line of sheet.lines) expect(line.reserveKg).toBeCloseTo(0.05 * line.loadKg, 6);
  });

  test("that eats itself up is refused", () => {
    expect(() => sheetOf([burn(9000)], { kind: "percent of load", percent: 50 })).toThrow(/No load is enough/);
  });
});

test("the mixture allowance covers either propellant running out first", () => {
  const engines = { ...plainLander.engines, mixtureSpreadPercent: 2 };
  const sheet = sortieSheet({ ...plainLander, engines }, profileOf([burn(2920)]), nothingAboard, densities);
  const burned = sheet.lines.reduce((sum, line) => sum + line.burnedKg, 0);
  const [hydrogen, oxygen] = [lineOf(sheet, "hydrogen"), lineOf(sheet, "oxygen")];
  // At O/F 6.12 the oxygen is what a sortie of this much propellant takes; at 5.88 the hydrogen.
  expect(oxygen.loadKg).toBeCloseTo((burned * 6.12) / 7.12, 6);
  expect(hydrogen.loadKg).toBeCloseTo(burned / 6.88, 6);
  expect(oxygen.returnKg).toBeCloseTo(oxygen.allowanceKg, 9);
});

describe("a cache", () => {
  const direct = sortieSheet(heronLander, heronDirect, heronMission, densities);
  const cached = sortieSheet(heronLander, heronCached, heronMission, densities);

  test("of the propellant for the way home saves several tonnes a sortie", () => {
    expect(direct.loadKg - cached.loadKg).toBeGreaterThan(4000);
  });

  test("holds what the way home takes, less what arrives aboard", () => {
    const take = cached.legs.find(({ kind }) => kind === "take up cache")!;
    const home = cached.legs.slice(take.stepIndex + 1);
    const oxygen = 1;
    const needed = home.reduce(
      (sum, leg) => sum + leg.burnedKg[oxygen]! + leg.lostKg[oxygen]! + leg.consumedKg[oxygen]!,
      cached.lines[oxygen]!.returnKg,
    );
    expect(take.stockAfterKg[oxygen]).toBeCloseTo(needed, 6);
    // 400 kg residual and 300 kg asked for.
    expect(take.stockBeforeKg[oxygen]).toBeCloseTo(700, 9);
    expect(-take.cachedKg[oxygen]!).toBeCloseTo(needed - 700, 6);
  });

  test("loses to boil-off while it waits, and that is loaded too", () => {
    const leave = cached.legs.find(({ kind }) => kind === "leave cache")!;
    const take = cached.legs.find(({ kind }) => kind === "take up cache")!;
    // Twelve days at 0.6 % a day.
    expect(-take.cachedKg[0]! / leave.cachedKg[0]!).toBeCloseTo(0.994 ** 12, 9);
  });
});

test("a drop tank takes its mass, its volume and its residual with it", () => {
  const drop = {
    kind: "jettison",
    name: "drop tank",
    massKg: 500,
    tanks: [{ propellantId: "oxygen", volumeM3: 20, residualKg: 50 }],
  } as const;
  const sheet = sheetOf([burn(1000), { ...drop, tanks: [...drop.tanks] }, burn(1000)]);
  const ratio = Math.exp(1000 / (450 * 9.80665));
  expect(sheet.startMassKg).toBeCloseTo((10_000 * ratio + 550) * ratio, 3);
  expect(lineOf(sheet, "oxygen").leftBehindKg).toBeCloseTo(50, 9);
});

test("every gram of the load is accounted for: burned, lost, consumed, left behind, brought home", () => {
  for (const plan of [heronDirect, heronCached, heronIntegrated]) {
    const sheet = sortieSheet(heronLander, plan, heronMission, densities);
    for (const line of sheet.lines) {
      const out = line.burnedKg + line.lostKg + line.consumedKg + line.leftBehindKg + line.returnKg;
      expect(out).toBeCloseTo(line.loadKg, 6);
    }
    expect(sheet.closure).toBeLessThan(1e-9);
  }
});

describe("findings", () => {
  test("name the tank that is too small, with both numbers", () => {
    const small = {
      ...plainLander,
      tanks: plainLander.tanks.map((tank) => (tank.propellantId === "hydrogen" ? { ...tank, volumeM3: 10 } : tank)),
    };
    const { findings } = sortieSheet(small, profileOf([burn(2920)]), nothingAboard, densities);
    expect(findings).toHaveLength(1);
    // 10 m³ × 70.8 kg/m³ × 0.95; 9380.5 kg / 7.
    expect(findings[0]).toMatchObject({ kind: "tank volume", propellantId: "hydrogen", stepIndex: 0 });
    expect(checkSentence(findings[0]!, () => "Hydrogen")).toBe(
      "Hydrogen: 1.34\u202ft needed, the tanks hold 673\u202fkg: 667\u202fkg too much",
    );
  });

  test("name the leg before which the tanks that are left are too small", () => {
    const drop = {
      kind: "jettison",
      name: "drop tank",
      massKg: 300,
      tanks: [{ propellantId: "hydrogen", volumeM3: 400, residualKg: 0 }],
    } as const;
    const small = {
      ...plainLander,
      tanks: plainLander.tanks.map((tank) => (tank.propellantId === "hydrogen" ? { ...tank, volumeM3: 10 } : tank)),
    };
    const steps = [burn(100), { ...drop, tanks: [...drop.tanks] }, burn(2920)];
    const { findings } = sortieSheet(small, profileOf(steps), nothingAboard, densities);
    // With the drop tank there is room; once it is gone leg 3 needs as much as in the test before, and 10 m³ hold 673 kg.
    expect(findings).toHaveLength(1);
    expect(findings[0]).toMatchObject({ kind: "tank volume", propellantId: "hydrogen", stepIndex: 2 });
    expect(checkSentence(findings[0]!, () => "Hydrogen")).toBe(
      "Hydrogen: 1.34\u202ft needed before leg 3, the tanks hold 673\u202fkg: 667\u202fkg too much",
    );
  });

  test("say that a fixed engine on a light lander cannot hold a soft touchdown, and with how many it could", () => {
    const engines = { ...plainLander.engines, count: 3, thrustN: 17_000, minimumThrottle: 0.9 };
    const landing = profileOf([burn(100, { phase: "descent" })]);
    const { findings } = sortieSheet({ ...plainLander, engines }, landing, nothingAboard, densities);
    const hover = findings.find(({ kind }) => kind === "hover throttle")!;
    expect(checkSentence(hover, String)).toMatch(/exactly timed cut-off \(with 1 lit it could\)/);
  });

  test("say that a heavy craft does not lift off, and that it does not survive the loss of an engine", () => {
    const engines = { ...plainLander.engines, thrustN: 12_000 };
    const launch = profileOf([burn(1800, { phase: "ascent" })]);
    const { findings } = sortieSheet({ ...plainLander, engines }, launch, nothingAboard, densities);
    expect(findings.map(({ kind }) => kind)).toEqual(["thrust to weight", "one engine out"]);
  });

  test("count ignitions of a sortie against the rating", () => {
    const { findings, ignitions } = sheetOf([burn(10, { ignitions: 6 }), burn(10, { ignitions: 5 })]);
    expect(ignitions).toBe(11);
    expect(findings).toMatchObject([{ kind: "ignitions", used: 11, rated: 10 }]);
  });

  test("show the throttle of the vertical phase against an engine that cannot go so low", () => {
    // The ascent runs at half thrust, which is as low as these go.
    const engines = { ...heronLander.engines, minimumThrottle: 0.5 };
    const { findings } = sortieSheet({ ...heronLander, engines }, heronIntegrated, heronMission, densities);
    expect(findings.map(({ kind }) => kind)).toEqual(["hover throttle", "vertical phase"]);
  });
});

describe("refused by name", () => {
  const leave = { kind: "leave cache", name: "leave it", cache: "low orbit", tankKg: 100 } as const;
  const held = { propellantId: "oxygen", volumeM3: 1, kPerDay: 0, cKgPerDay: 0 };
  const left = { ...leave, tanks: [held] };
  const take = { kind: "take up cache", name: "take it", cache: "low orbit", keepsTank: true, arriveWith: [] } as const;
  const taken = { ...take, arriveWith: [] };

  test.each([
    ["a cache never taken up", [left], /"low orbit" is left and never taken up/, "steps.0.cache"],
    ["a cache taken up twice", [left, taken, taken], /"low orbit" is taken up twice/, "steps.2.cache"],
    ["a cache not left before", [taken], /step 1 \(take it\) takes up .* not left before/, "steps.0.cache"],
    ["a cache left twice", [left, left, taken], /a second time/, "steps.1.cache"],
    [
      "more engines than there are",
      [burn(1, { enginesLit: 3 })],
      /lights 3 engines and the lander has 2/,
      "steps.0.enginesLit",
    ],
    [
      "a throttle below the lowest",
      [burn(1, { throttle: 0.05 })],
      /5 % of thrust; the engine's lowest is 10 %/,
      "steps.0.throttle",
    ],
  ] as const)("%s", (_what, steps, message, field) => {
    expect(() => sheetOf([...steps])).toThrow(message);
    expect(() => sheetOf([...steps])).toThrow(expect.objectContaining({ code: "refused", field }));
  });

  test("more cargo put off than was lifted", () => {
    const off = { kind: "load change", name: "unload", cargoKg: -1500, sortieCargo: "none", persons: 0 } as const;
    const mission = { ...nothingAboard, cargoDownKg: 1000 };
    expect(() => sortieSheet(plainLander, profileOf([off]), mission, densities)).toThrow(
      "step 1 (unload) puts off 500.0 kg more cargo than was taken aboard",
    );
  });

  test("cargo beyond what the lander carries", () => {
    const mission = { ...heronMission, cargoDownKg: 4000 };
    expect(() => sortieSheet(heronLander, heronDirect, mission, densities)).toThrow(/4000.0 kg of cargo aboard/);
  });

  test("a thrust that cannot land", () => {
    const engines = { ...heronLander.engines, thrustN: 15_000 };
    expect(() => sortieSheet({ ...heronLander, engines }, heronIntegrated, heronMission, densities)).toThrow(
      /step 4 \(descent and landing\) cannot be flown: 60 kN .* too little thrust/,
    );
  });

  test("an Isp, a mixture ratio or a thrust of 0, at the door", () => {
    const faults = (engine: object) =>
      landerSchema.safeParse({ ...plainLander, engines: { ...plainLander.engines, ...engine } }).error?.issues[0]
        ?.message;
    expect(faults({ ispFullS: 0 })).toMatch(/Isp must be above 0 s/);
    expect(faults({ mixtureRatio: 0 })).toMatch(/mixture ratio must be above 0/);
    expect(faults({ thrustN: 0 })).toMatch(/thrust must be above 0 N/);
  });
});

test("Heron's lander and profiles pass their schemas and have no findings", () => {
  expect(landerSchema.parse(heronLander)).toEqual(heronLander);
  for (const plan of [heronDirect, heronCached, heronIntegrated]) {
    expect(profileSchema.parse(plan)).toEqual(plan);
    const sheet = sortieSheet(heronLander, plan, heronMission, densities);
    expect(sheet.findings).toEqual([]);
    expect(demandOf(sheet)).toHaveLength(3);
  }
});
