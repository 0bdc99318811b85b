/** Landers of several stages: a case worked by hand backwards, the forward run, what is refused by name, life and wear by stage. */
import { readFileSync } from "node:fs";
import { array, assert, boolean, double as anyDouble, property, tuple } from "fast-check";
import { describe, expect, test } from "vitest";
import type { EngineSet, FurtherStage, Lander } from "../../../app/entity/lander.ts";
import { lander as landerSchema } from "../../../app/entity/lander.ts";
import type { Mission, ProfileStep } from "../../../app/entity/profile.ts";
import { profile as profileSchema } from "../../../app/entity/profile.ts";
import { checkSentence } from "../../../app/sortie/check-sentence.ts";
import { engineLife } from "../../../app/sortie/life.ts";
import { sortieSheet } from "../../../app/sortie/sheet.ts";
import { stageSentence } from "../../../app/sortie/stage-words.ts";
import { engineBurns } from "../../../app/sortie/stage-sheet.ts";
import type { FlownProfile } from "../../../app/sortie/solve-off-plane.ts";
import { burn, densities, nothingAboard, plainLander, profileOf, stay } from "./example.ts";

const propellants = [
  { id: "tetroxide", densityKgPerM3: 1440 },
  { id: "hydrazine", densityKgPerM3: 880 },
];

const engines = (thrustN: number, ispFullS: number, mixtureRatio: number): EngineSet => ({
  count: 1,
  thrustN,
  ispFullS,
  ispMinimumS: ispFullS,
  minimumThrottle: 0.2,
  mixtureRatio,
  mixtureSpreadPercent: 0,
  oxidiserId: "tetroxide",
  fuelId: "hydrazine",
  ratedIgnitions: 2,
  ratedBurnSeconds: 900,
});

const tank = (propellantId: string, volumeM3: number, residualKg: number): Lander["tanks"][number] => ({
  propellantId,
  volumeM3,
  ullagePercent: 5,
  residualKg,
  kPerDay: 0,
  cKgPerDay: 0,
});

const descent: FurtherStage = {
  name: "Descent",
  dryKg: 1900,
  engines: engines(45_000, 315, 1.9),
  thrusters: [],
  tanks: [tank("tetroxide", 4, 60), tank("hydrazine", 3, 40)],
  reservePercent: 0,
};

const twoStages: Lander = {
  dryKg: 2200,
  engines: engines(16_000, 310, 1.65),
  thrusters: [],
  tanks: [tank("tetroxide", 1, 20), tank("hydrazine", 1, 12)],
  fuelCells: [],
  crew: [],
  personKg: 100,
  cargoLimitKg: null,
  furtherStages: [descent],
};

const down = (mPerS: number): ProfileStep => burn(mPerS, { name: "landing", phase: "descent", stage: "Descent" });
const up = (mPerS: number): ProfileStep => burn(mPerS, { name: "ascent", phase: "ascent" });
const unload: ProfileStep = { kind: "load change", name: "unload", cargoKg: 0, sortieCargo: "put off", persons: 0 };
const load: ProfileStep = { kind: "load change", name: "load", cargoKg: 0, sortieCargo: "take aboard", persons: 0 };
const part = (more: Partial<Extract<ProfileStep, { kind: "drop stage" }>> = {}): ProfileStep => ({
  kind: "drop stage",
  name: "part",
  stage: "Descent",
  fate: "left on the surface",
  ...more,
});
const home: ProfileStep = { kind: "drop stage", name: "end of life", fate: "dropped" };

const mission: Mission = { cargoDownKg: 500, cargoUpKg: 100, crew: 0 };
const there = [down(2080), unload, load, part(), up(1850)];
const fly = (profile: FlownProfile, lander = twoStages, carried = mission) =>
  sortieSheet(lander, profile, carried, propellants);

describe("two stages by hand", () => {
  /*
   * Backwards, with g0 = 9.80665 m/s².
   * The lander's own stage comes home with 2200 kg dry, 100 kg of cargo and 20 + 12 kg of residual: 2332 kg.
   *   1850 m/s at 310 s: 1850 / 3040.0615 = 0.60854032, e^… = 1.83774692; 2332 · 1.83774692 = 4285.626 kg at lift-off,
   *   so 1953.626 kg burned: 1.65 / 2.65 of it tetroxide, 1216.409 + 20 = 1236.409 kg; hydrazine 737.217 + 12 = 749.217 kg.
   * On the surface stays 1900 kg dry with 60 + 40 kg of residual: 2000 kg; cargo: 100 kg came aboard, 500 kg were put off.
   *   At touchdown 4285.626 − 100 + 500 + 2000 = 6685.626 kg.
   *   2080 m/s at 315 s: 2080 / 3089.09475 = 0.67333642, e^… = 1.96076837; 6685.626 · 1.96076837 = 13 108.964 kg,
   *   so 6423.338 kg burned: 1.9 / 2.9 of it tetroxide, 4208.394 + 60 = 4268.394 kg; hydrazine 2214.944 + 40 = 2254.944 kg.
   */
  const sheet = fly(profileOf(there));

  test("the loads of both stages are those of the rocket equation, to a gram", () => {
    const [own, further] = sheet.stages;
    expect(own?.lines.map(({ loadKg }) => loadKg)).toEqual([expect.closeTo(1236.409, 3), expect.closeTo(749.217, 3)]);
    expect(further?.lines.map(({ loadKg }) => loadKg)).toEqual([
      expect.closeTo(4268.394, 3),
      expect.closeTo(2254.944, 3),
    ]);
    expect(sheet.startMassKg).toBeCloseTo(13_108.964, 3);
    expect(sheet.legs[1]?.massBeforeKg).toBeCloseTo(6685.626, 3);
    expect(sheet.legs[4]?.massBeforeKg).toBeCloseTo(4285.626, 3);
    expect(sheet.endMassKg).toBeCloseTo(2332, 9);
    expect(sheet.closure).toBeLessThan(1e-9);
  });

  test("lines add the stages up; what stays in the dropped one does not come home", () => {
    expect(sheet.lines[0]).toMatchObject({
      propellantId: "tetroxide",
      loadKg: expect.closeTo(1236.409 + 4268.394, 2) as number,
      leftBehindKg: 60,
      residualKg: 20,
      returnKg: 20,
    });
    expect(sheet.stages.map(({ name, fate }) => [name, fate])).toEqual([
      [null, "comes home"],
      ["Descent", "left on the surface"],
    ]);
  });

  test("each stage is told in a line", () => {
    const [own, further] = sheet.stages.map((stage) => stageSentence(stage, "kg").replaceAll("\u202f", " "));
    expect(own).toBe(
      "The lander itself: dry 2 200 kg, load 1 986 kg, 1 850 m/s, 1 ignition and 371 s of the engine used most; comes home.",
    );
    expect(further).toMatch(/^Descent: dry 1 900 kg, load 6 523 kg, 2 080 m\/s, .*; left on the surface\.$/);
  });

  test("a stage that is carried home takes more of the other", () => {
    const kept = fly(profileOf(there.filter((step) => step.kind !== "drop stage")));
    // 2000 kg more at the end of an ascent of ratio 1.83774692: 1675.494 kg more to burn.
    expect(kept.stages[0]!.loadKg - sheet.stages[0]!.loadKg).toBeCloseTo(2000 * 0.83774692, 3);
    expect(kept.lines[0]?.returnKg).toBe(80);
  });

  test("the lander itself can be dropped at the end: then nothing comes home", () => {
    const spent = fly(profileOf([...there, home]));
    expect(spent.startMassKg).toBeCloseTo(sheet.startMassKg, 6);
    expect(spent.lines.map(({ returnKg }) => returnKg)).toEqual([0, 0]);
    expect(spent.lines.map(({ leftBehindKg }) => leftBehindKg)).toEqual([80, 52]);
    expect(spent.endMassKg).toBeCloseTo(100, 9);
    expect(spent.stages.map(({ fate }) => fate)).toEqual(["dropped", "left on the surface"]);
  });

  test("a reserve of the further stage is left in it, and of the profile in the lander", () => {
    const [held] = fly(profileOf(there), {
      ...twoStages,
      furtherStages: [{ ...descent, reservePercent: 5 }],
    }).stages.slice(1);
    for (const { propellantId, loadKg, leftKg } of held!.lines)
      expect(leftKg).toBeCloseTo((propellantId === "tetroxide" ? 60 : 40) + 0.05 * loadKg, 6);
    const rule = { kind: "delta-v", mPerS: 50 } as const;
    const with50 = fly(profileOf([...there, home], rule));
    // 50 m/s at 310 s on 2332 kg: e^0.01644704 − 1 = 0.01658304, 38.672 kg.
    const left = with50.stages[0]!.lines.reduce((sum, { leftKg }) => sum + leftKg, 0);
    expect(left - 32).toBeCloseTo(38.672, 2);
  });

  test("each stage is checked by its own engines and tanks, in a sentence that names it", () => {
    const words = sheet.checks.map((check) => checkSentence(check, (id) => id));
    expect(words).toContainEqual(
      expect.stringMatching(/^Descent: Thrust is 2\.12 times lunar weight at descent start/),
    );
    expect(words).toContainEqual(expect.stringMatching(/^Thrust is 2\.30 times lunar weight at lift-off/));
    expect(words).toContainEqual(expect.stringMatching(/^Descent: tetroxide: 4\.27.t needed, the tanks hold 5\.47.t/));
    expect(words).toContainEqual(expect.stringMatching(/^tetroxide: 1\.24.t needed, the tanks hold 1\.37.t/));
    expect(words.filter((each) => each.startsWith("Descent: 1 ignition"))).toHaveLength(1);
  });
});

describe("refused by name", () => {
  const refused: readonly (readonly [string, Lander, ProfileStep[], RegExp])[] = [
    [
      "a stage with no engine that must burn",
      { ...twoStages, furtherStages: [{ ...descent, engines: null }] },
      there,
      /step 1 \(landing\) burns the stage "Descent", which has no engine/,
    ],
    [
      "a stage that there is not",
      twoStages,
      [burn(10, { stage: "Cruise" })],
      /names the stage "Cruise", which the lander has not/,
    ],
    [
      "a burn of a stage that is gone",
      twoStages,
      [...there, down(1)],
      /step 6 \(landing\) uses the stage "Descent" after it was dropped in step 4/,
    ],
    [
      "a stage dropped twice",
      twoStages,
      [...there, part({ fate: "dropped" })],
      /drops the stage "Descent" a second time/,
    ],
    [
      "a stage left on the surface from orbit",
      twoStages,
      [part(), up(10)],
      /leaves a stage on the surface, but no descent comes before it/,
    ],
    ["a stage left on the surface after lift-off", twoStages, [down(10), up(10), part()], /no descent comes before it/],
    [
      "a lander dropped before the end",
      twoStages,
      [home, down(1)],
      /drops the lander itself and must be the last step/,
    ],
    ["a lander dropped with a stage on it", twoStages, [down(1), home], /while the stage "Descent" is still on it/],
    [
      "two stages of one name",
      { ...twoStages, furtherStages: [descent, descent] },
      there,
      /two stages of the name "Descent"/,
    ],
    [
      "an engine without its tank",
      { ...twoStages, furtherStages: [{ ...descent, tanks: [tank("tetroxide", 1, 0)] }] },
      there,
      /the stage "Descent" has no tank for hydrazine/,
    ],
    [
      "crew living from a stage without the tank",
      {
        ...twoStages,
        crew: [{ propellantId: "tetroxide", kgPerPersonDay: 1 }],
        furtherStages: [{ ...descent, engines: null, tanks: [] }],
      },
      [stay(1, { crew: 2, stage: "Descent" })],
      /the stage "Descent" has no tank for tetroxide/,
    ],
    [
      "thrusters that the stage has not",
      twoStages,
      [
        {
          kind: "thruster burn",
          name: "trim",
          stage: "Descent",
          system: "small",
          amount: { kind: "mass", massKg: 1 },
          marginPercent: 0,
        },
      ],
      /which the stage "Descent" has not/,
    ],
  ];
  test.each(refused)("%s", (_what, lander, steps, words) => {
    expect(() => fly(profileOf(steps), lander)).toThrow(words);
  });
});

test("crew and fuel cells live from the stage that a stay names", () => {
  const lander = { ...twoStages, crew: [{ propellantId: "tetroxide", kgPerPersonDay: 2 }] };
  const staying = (stage?: string) =>
    fly(profileOf([down(0), stay(3, { crew: 2, ...(stage !== undefined && { stage }) }), part(), up(0)]), lander);
  expect(staying().stages.map(({ lines }) => lines[0]?.loadKg)).toEqual([32, 60]);
  expect(staying("Descent").stages.map(({ lines }) => lines[0]?.loadKg)).toEqual([20, 72]);
});

test("a dropped stage is new in the next sortie; the lander's own engines add up", () => {
  const sheet = fly(profileOf(there));
  const uses = [1, 2, 3].flatMap((at) =>
    sheet.stages.map(({ name, fate }) => ({
      sortieId: `s${at}`,
      landerId: "one",
      stage: name,
      at,
      burns: engineBurns(sheet.legs, name),
      isSpent: fate !== "comes home",
    })),
  );
  const lives = engineLife(uses, [], () => engines(1, 1, 1));
  expect(lives.map(({ stage, dueBefore }) => [stage, dueBefore?.sortieId ?? null])).toEqual([
    [null, "s3"],
    ["Descent", null],
  ]);
  // Engines changed on the lander's own stage alone; a change of the other stage says nothing about it.
  const changed = (stage: string | null) =>
    engineLife(uses, [{ landerId: "one", stage, at: 3, engineNumbers: null }], () => engines(1, 1, 1))[0]?.dueBefore;
  expect(changed(null)).toBeNull();
  expect(changed("Descent")?.sortieId).toBe("s3");
});

const double = (min: number, max: number) => anyDouble({ min, max, noNaN: true });

test("the forward run of any two stages closes, and every kilogram is accounted for", () => {
  const further = tuple(
    double(200, 4000),
    double(0, 0.02),
    double(0, 3),
    double(0, 90),
    double(0, 3),
    double(0, 8),
  ).map(([dryKg, kPerDay, cKgPerDay, residualKg, mixtureSpreadPercent, reservePercent]): FurtherStage => ({
    ...descent,
    dryKg,
    reservePercent,
    engines: { ...plainLander.engines, mixtureSpreadPercent },
    tanks: plainLander.tanks.slice(0, 2).map((each) => ({ ...each, kPerDay, cKgPerDay, residualKg })),
  }));
  const speeds = array(double(0, 1200), { minLength: 2, maxLength: 4 });
  assert(
    property(
      further,
      speeds,
      double(0, 20),
      double(0, 4),
      boolean(),
      boolean(),
      (stage, mPerS, days, percent, leaves, ends) => {
        const lander = { ...plainLander, furtherStages: [stage] };
        const steps: ProfileStep[] = [
          ...mPerS.map((each, i) => burn(each, i % 2 === 0 ? { stage: "Descent" } : {})),
          stay(days, { powerKw: 0 }),
          ...(leaves || ends ? [part({ fate: "dropped" })] : []),
          stay(days),
          burn(900),
          ...(ends ? [home] : []),
        ];
        const sheet = sortieSheet(
          lander,
          profileOf(steps, { kind: "percent of load", percent }),
          nothingAboard,
          densities,
        );
        expect(sheet.closure).toBeLessThan(1e-9);
        for (const line of sheet.lines) {
          const out = line.burnedKg + line.lostKg + line.consumedKg + line.leftBehindKg + line.returnKg;
          expect(Math.abs(out - line.loadKg)).toBeLessThan(1e-8 * (1 + line.loadKg));
        }
      },
    ),
    { numRuns: 150 },
  );
});

interface Kept {
  readonly name: string;
  readonly lander: unknown;
  readonly profile: object;
  readonly mission: Mission;
  readonly propellants: typeof densities;
  readonly gave: {
    readonly lines: readonly Readonly<Record<"loadG" | "returnG" | "burnedG" | "lostG", number>>[];
    readonly startG: number;
    readonly ignitions: number;
    readonly burnSeconds: number;
    readonly findings: number;
  };
}

/**
 * What the program of form 150 computed, before landers had stages: every profile of the demonstrations with two loads, and
 * landers, steps and reserves by a linear congruence. Never made again.
 */
const kept = JSON.parse(readFileSync(new URL("./kept/form-150-sheets.json", import.meta.url), "utf8")) as Kept[];

test.each(kept)("$name: the same to the gram as before landers had stages", (one) => {
  const lander = landerSchema.parse(one.lander);
  const profile = profileSchema.pick({ steps: true, reserve: true, landing: true }).parse(one.profile);
  const sheet = sortieSheet(lander, profile, one.mission, one.propellants);
  const grams = (kg: number): number => Math.round(kg * 1000);
  const lines = sheet.lines.map((line) => ({
    propellantId: line.propellantId,
    loadG: grams(line.loadKg),
    returnG: grams(line.returnKg),
    burnedG: grams(line.burnedKg),
    lostG: grams(line.lostKg),
  }));
  expect(lines).toEqual(one.gave.lines);
  expect(grams(sheet.startMassKg)).toBe(one.gave.startG);
  expect(sheet.ignitions).toBe(one.gave.ignitions);
  expect(sheet.burnSeconds).toBeCloseTo(one.gave.burnSeconds, 6);
  expect(sheet.findings).toHaveLength(one.gave.findings);
});
