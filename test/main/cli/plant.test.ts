/** `plant` on a ledger: what water makes (F, E-values of the trade), the ready loads, what cannot be told; nothing written. */
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { demoTarn } from "../../../app/demo/tarn.ts";
import type { Entity } from "../../../app/entity/entities.ts";
import type { PlantOutput } from "../../../app/plant/water-plant.ts";
import { loadDocument } from "../../../db/ledger.ts";
import { run } from "./terminal.ts";

const folder = mkdtempSync(join(tmpdir(), "coldstock-plant-"));
const at = (name: string): string => join(folder, name);
const demo = demoTarn();
const described = demo.entities.source.find(({ plant }) => plant !== null)!;

const write = (name: string, change: Partial<NonNullable<Entity<"source">["plant"]>>): string => {
  const source = { ...described, plant: { ...described.plant!, ...change } };
  const others = demo.entities.source.filter(({ id }) => id !== source.id);
  loadDocument(at(name), { ...demo, entities: { ...demo.entities, source: [...others, source] } }).close();
  return at(name);
};

interface PlantAnswer {
  readonly day: PlantOutput;
  readonly dutyDays: number;
  readonly flights: readonly Entity<"flight">[] | null;
}
const answer = async (...words: string[]): Promise<PlantAnswer> =>
  JSON.parse((await run("plant", ...words, "--json")).out) as PlantAnswer;

const plain = { waterKgPerDay: 1000, recoveryFraction: 1, persons: 0, fuelCellKWhPerDay: 0 };
beforeAll(() => {
  write("at-5.5.coldstock", { ...plain, mixtureRatio: 5.5 });
  write("at-6.coldstock", { ...plain, mixtureRatio: 6 });
  write("thirsty.coldstock", { ...plain, mixtureRatio: 5.5, persons: 1000 });
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test.each([
  ["at-5.5.coldstock", 727.394, 272.606],
  ["at-6.coldstock", 783.347, 216.653],
])(
  "a tonne of water by %s makes %d kg of pairs and leaves %d kg of oxygen (F), kept in a ledger file",
  async (name, made, left) => {
    const { day } = await answer(at(name));
    expect(day.propellantKg).toBeCloseTo(made, 3);
    expect(day.oxygenSurplusKg).toBeCloseTo(left, 3);
    // 15.999/2.016 (F; atomic masses M), "about eight to one" (C).
    expect(day.oxygenKg / day.hydrogenKg).toBeCloseTo(7.93601, 5);
    const { out, status } = await run("plant", at(name));
    expect(status).toBe(0);
    expect(out).toMatch(new RegExp(`In pairs +${made.toFixed(1)} +kg/day`));
    expect(out).toMatch(new RegExp(`vented +${left.toFixed(1)} +kg/day`));
  },
);

test("power: 55 kWh/kg of electrolysis and 10 of liquefaction, as put in, of 111.9 kg of hydrogen, 0.5 of its oxygen", async () => {
  const { day } = await answer(at("at-5.5.coldstock"), "Rim plant");
  // By hand: 1000/8.93601 = 111.907 kg; · 65 = 7273.9 kWh; oxygen 5.5 · 111.907 · 0.5 = 307.7 kWh; over 24 h.
  expect(day.powerKW).toBeCloseTo((7273.9 + 307.7) / 24, 1);
});

test("oxygen that cannot be covered is status 1, and said", async () => {
  const { status, out } = await run("plant", at("thirsty.coldstock"));
  expect(status).toBe(1);
  // 1000 persons at 0.895 kg (Q): 895 kg, of which 272.6 are left over.
  expect(out).toContain("622.4 kg of oxygen a day is missing");
});

test("ready loads with a tanker are listed and nothing is written", async () => {
  const before = readFileSync(at("at-5.5.coldstock"));
  const words = [at("at-5.5.coldstock"), "--tanker", "Packhorse hull 1"] as const;
  const { flights, dutyDays } = await answer(...words);
  // A Packhorse takes 8 t of oxygen, so 8 · 6.5/5.5 = 9.4545 t of pairs: 13.0 days of work.
  expect(flights!.length).toBeGreaterThan(3);
  const gaps = flights!.slice(1, 4).map(({ departAt }, i) => (departAt - flights![i]!.departAt) / 86_400_000);
  for (const gap of gaps) expect(gap).toBeCloseTo(9454.545 / 727.394, 3);
  expect(dutyDays).toBeGreaterThan(100);
  const { out } = await run("plant", ...words);
  expect(out).toContain("nothing is written");
  expect(out).toMatch(/Rim plant load 1 +2031-/);
  expect(readFileSync(at("at-5.5.coldstock")).equals(before)).toBe(true);
});

test("a plant or tanker that is not there is named with what is; status 2", async () => {
  const none = await run("plant", at("at-6.coldstock"), "Ground");
  expect(none.status).toBe(2);
  expect(none.err).toContain("There are: Rim plant");
  expect((await run("plant", at("at-6.coldstock"), "--tanker", "Ox cart")).err).toContain("Packhorse hull 1");
  await run("demo", "beck", at("beck.coldstock"));
  expect((await run("plant", at("beck.coldstock"))).err).toContain("There is none");
});
