/** Wear by engine: which ones a burn lights, what that adds up to over sorties, and changes of single engines. */
import { describe, expect, test } from "vitest";
import { chosenEngines, type EngineBurn, newEngines } from "../../../app/sortie/engine-use.ts";
import { neededEngines } from "../../../app/sortie/engine-words.ts";
import { lander as landerSchema } from "../../../app/entity/lander.ts";
import { engineLife } from "../../../app/sortie/life.ts";
import { profile as profileSchema } from "../../../app/entity/profile.ts";
import { sortieSheet } from "../../../app/sortie/sheet.ts";
import { burn, densities, nothingAboard, plainLander, profileOf } from "./example.ts";

const burnOf = (
  lit: number,
  ignitions: number,
  burnSeconds: number,
  engineNumbers: number[] | null = null,
): EngineBurn => ({
  lit,
  engineNumbers,
  ignitions,
  burnSeconds,
});
const unrated = { count: 4, ratedIgnitions: null, ratedBurnSeconds: null };
/** Sorties a day apart, all alike. */
const sorties = (count: number, burns: readonly EngineBurn[]) =>
  Array.from({ length: count }, (_, n) => ({ sortieId: `s${n + 1}`, landerId: "one", at: n + 1, burns }));
const ignitionsOf = (life: ReturnType<typeof engineLife>, row: number) =>
  life[0]!.rows[row]!.engines.map(({ ignitions }) => ignitions);

// Each sortie starts all four engines once for 300 s, and two of them twice more for 100 s.
const usual = [burnOf(4, 1, 300), burnOf(2, 2, 100)];

describe("where a burn does not name its engines", () => {
  test("the same ones burn every time, unless the set says otherwise: 1 and 2 wear, 3 and 4 hardly", () => {
    const life = engineLife(sorties(5, usual), [], () => ({ ...unrated, ratedIgnitions: 10 }));
    // 3 a sortie on engines 1 and 2, 1 a sortie on 3 and 4: due at the fourth.
    expect(ignitionsOf(life, 3)).toEqual([12, 12, 4, 4]);
    expect(life[0]!.dueBefore).toMatchObject({
      sortieId: "s4",
      dueNumbers: [1, 2],
      exceeds: ["ignitions"],
      ignitions: 12,
    });
    expect(life[0]!.rows[0]!.burnSeconds).toBe(400);
  });

  test("or the least worn ones: they take turns, and last one sortie longer", () => {
    const life = engineLife(sorties(6, usual), [], () => ({ ...unrated, choice: "least worn", ratedIgnitions: 10 }));
    // Pairs take turns: after the first sortie 3 3 1 1, after the second 4 4 4 4, and so on by two.
    expect([0, 1, 4].map((row) => ignitionsOf(life, row))).toEqual([
      [3, 3, 1, 1],
      [4, 4, 4, 4],
      [11, 11, 9, 9],
    ]);
    expect(life[0]!.dueBefore).toMatchObject({ sortieId: "s5", dueNumbers: [1, 2] });
  });

  test("worn counts by the greater share of the two ratings", () => {
    const rules = { count: 2, choice: "least worn" as const, ratedIgnitions: 10, ratedBurnSeconds: 1000 };
    const one = { lit: 1, engineNumbers: null };
    // 5 of 10 starts against 600 of 1000 s.
    expect(
      chosenEngines(
        one,
        [
          { ignitions: 1, burnSeconds: 600 },
          { ignitions: 5, burnSeconds: 10 },
        ],
        rules,
      ),
    ).toEqual([2]);
    // Equal shares: less burn time, then the lower number.
    expect(
      chosenEngines(
        one,
        [
          { ignitions: 5, burnSeconds: 90 },
          { ignitions: 5, burnSeconds: 80 },
        ],
        rules,
      ),
    ).toEqual([2]);
    expect(chosenEngines(one, newEngines(2), rules)).toEqual([1]);
  });
});

test("a burn that names its engines wears those", () => {
  const life = engineLife(sorties(2, [burnOf(2, 1, 50, [2, 4])]), [], () => unrated);
  expect(ignitionsOf(life, 1)).toEqual([0, 2, 0, 2]);
});

test("one engine is changed and begins anew, the others go on; without numbers all are new", () => {
  const rules = () => ({ ...unrated, ratedIgnitions: 10 });
  const changed = (engineNumbers: number[] | null) =>
    engineLife(sorties(5, usual), [{ landerId: "one", at: 4, engineNumbers }], rules);
  expect(ignitionsOf(changed([1]), 3)).toEqual([3, 12, 4, 4]);
  expect(changed([1])[0]!.dueBefore).toMatchObject({ sortieId: "s4", dueNumbers: [2] });
  expect(ignitionsOf(changed([1, 2]), 4)).toEqual([6, 6, 5, 5]);
  expect(changed([1, 2])[0]!.dueBefore).toBeNull();
  expect(ignitionsOf(changed(null), 3)).toEqual([3, 3, 1, 1]);
});

test("the sheet counts each engine of the lander", () => {
  const steps = [
    burn(1000, { ignitions: 2 }),
    burn(100, { enginesLit: 1 }),
    burn(50, { engineNumbers: [2], ignitions: 3 }),
  ];
  const sheet = sortieSheet(plainLander, profileOf(steps), nothingAboard, densities);
  const [all, first, second] = sheet.legs.map(({ burnSeconds }) => burnSeconds);
  expect(sheet.engines).toEqual([
    { ignitions: 3, burnSeconds: all! + first! },
    { ignitions: 5, burnSeconds: all! + second! },
  ]);
  expect(sheet.ignitions).toBe(5);
  expect(sheet.burnSeconds).toBe(Math.max(all! + first!, all! + second!));
  // Naming one of two engines lights one: half the thrust.
  expect(sheet.legs[2]!.thrustToWeight![0] * 2).toBeCloseTo(
    (2 * plainLander.engines.thrustN) / (sheet.legs[2]!.massBeforeKg * 1.62),
    9,
  );
});

test.each([
  ["an engine that there is not", { engineNumbers: [1, 3] }, /lights engine 3 and the lander has 2/],
  ["an engine named twice", { engineNumbers: [1, 1] }, /names an engine twice/],
  ["two named and one lit", { engineNumbers: [1, 2], enginesLit: 1 }, /names 2 engines and lights 1/],
])("%s is refused by the step's name", (_what, more, message) => {
  const run = () => sortieSheet(plainLander, profileOf([burn(10, more)]), nothingAboard, densities);
  expect(run).toThrow(message);
  expect(run).toThrow(expect.objectContaining({ code: "refused", field: "steps.0.engineNumbers" }));
});

test("a lander and a profile written before engines had numbers are read as they stand", () => {
  expect(landerSchema.parse(plainLander)).toStrictEqual(plainLander);
  const plain = { ...profileOf([burn(10)]), id: "p", classId: "c", name: "P", note: "" };
  expect(profileSchema.parse(plain)).toStrictEqual({ ...plain, landing: null });
});

test("words", () => {
  expect(neededEngines([1, 2, 3, 4], 4)).toBe("needs new engines");
  expect(neededEngines([3], 4)).toBe("needs engine 3 changed");
  expect(neededEngines([1, 2, 4], 5)).toBe("needs engines 1, 2 and 4 changed");
});
