/** Ways across vehicles: kilograms from the ground by hand, break-even by hand, what moves it, what is refused. */
import { describe, expect, test } from "vitest";
import { demoTarn } from "../../../app/demo/tarn.ts";
import { heronMission } from "../../../app/demo/heron.ts";
import type { CraftClass } from "../../../app/entity/craft.ts";
import type { Profile } from "../../../app/entity/profile.ts";
import { breakEven, movesMost } from "../../../app/ways/break-even.ts";
import { depotWaiting } from "../../../app/ways/depot-waiting.ts";
import { handedOver } from "../../../app/ways/handed-over.ts";
import { type Lifted, liftedBy, overCampaign } from "../../../app/ways/lifted.ts";
import { breakEvenSentence, movesMostSentence, wholeSorties } from "../../../app/ways/lifted-words.ts";
import { vehicleWays } from "../../../app/ways/vehicle-way.ts";
import { burn, densities, nothingAboard, plainLander } from "../sortie/example.ts";

const line = (propellantId: string, loadKg: number, more: object = {}): CraftClass["propellants"][number] => ({
  propellantId,
  capacityKg: loadKg,
  loadKg,
  returnKg: 0,
  kPerDay: 0,
  cKgPerDay: 0,
  residualKg: 0,
  chilldownKg: 0,
  lossFraction: 0,
  rateKgPerDay: null,
  ...more,
});

const classOf = (more: Partial<CraftClass>): CraftClass => ({
  id: "class",
  name: "Class",
  role: "lander",
  propellants: [],
  tripDays: 0,
  berthDays: 0,
  note: "",
  lander: null,
  turnaroundDays: 0,
  costPerFlight: null,
  costUnit: "units",
  hardwareKg: null,
  ...more,
});

/** 1000 kg of hydrogen less 2 kg a day for 10 days, 30 kg that stay, 50 kg of chilldown and a tenth lost: 810 kg; oxygen 4000 less 400: 3600 kg. */
const tanker = classOf({
  id: "tanker",
  name: "Tanker",
  role: "tanker",
  tripDays: 10,
  propellants: [
    line("hydrogen", 1000, { cKgPerDay: 2, residualKg: 30, chilldownKg: 50, lossFraction: 0.1 }),
    line("oxygen", 4000, { lossFraction: 0.1 }),
  ],
  costPerFlight: 20,
  hardwareKg: 500,
});

const profileOf = (id: string, classId: string, steps: Profile["steps"]): Profile => ({
  id,
  classId,
  name: "all of it",
  steps,
  reserve: { kind: "mass", lines: [] },
  note: "",
  landing: null,
});

const [hydrogen, oxygen] = plainLander.tanks;
/** 10 t dry, 70 kg of hydrogen and 420 kg of oxygen residual. */
const reusable = {
  ...plainLander,
  thrusters: [],
  tanks: [
    { ...hydrogen!, residualKg: 70 },
    { ...oxygen!, residualKg: 420 },
  ],
};
const propellants = densities.map((row) => ({ ...row, name: row.id }));
const by = { tanker, mission: nothingAboard, propellants, waiting: null };
const home = { kind: "drop stage", name: "end", fate: "dropped" } as const;

/** Of Δv so that the mass ratio is 2: as much burned as is there at the end. 450 s · 9.80665 m/s² · ln 2. */
const DOUBLE = 450 * 9.80665 * Math.LN2;

describe("a class that comes home, filled at the depot", () => {
  const craftClass = classOf({ id: "again", name: "Again", lander: reusable, hardwareKg: 300, costPerFlight: 90 });
  const [way] = vehicleWays({ craftClasses: [craftClass], profiles: [profileOf("p", "again", [burn(DOUBLE)])] });
  const found = liftedBy(way!, by);

  test("what a tanker hands over is what is left after way, residual, chilldown and transfer loss", () => {
    expect(handedOver(tanker)).toEqual([
      { propellantId: "hydrogen", loadedKg: 1000, handedKg: expect.closeTo(810, 9) as number },
      { propellantId: "oxygen", loadedKg: 4000, handedKg: 3600 },
    ]);
  });

  test("the first sortie lifts the craft and all that it loads, a further one what it uses", () => {
    // End: 10 490 kg, so 10 490 kg burned: 1498.571 kg of hydrogen and 8991.429 kg of oxygen.
    // First: hydrogen 1568.571 · 1000/810 = 1936.508, oxygen 9411.429 · 4000/3600 = 10 457.143; flights by oxygen 2.614286.
    expect(found.first.propellantKg).toBeCloseTo(10_980, 3);
    expect(found.first.propellantKg + found.first.onTheWayKg).toBeCloseTo(1936.508 + 10_457.143, 2);
    expect(found.first.tankerFlights).toBeCloseTo(2.614286, 5);
    expect(found.first).toMatchObject({ craftKg: 10_000, newCraft: 1 });
    expect(found.first.carrierKg).toBeCloseTo(2.614286 * 500 + 300, 2);
    expect(found.first.cost).toBeCloseTo(2.614286 * 20 + 90, 3);
    // Each: hydrogen 1498.571/0.81 = 1850.088, oxygen 8991.429/0.9 = 9990.476; flights 2.497619.
    expect(found.each.totalKg).toBeCloseTo(1850.088 + 9990.476 + 2.497619 * 500, 2);
    expect(found.each).toMatchObject({ craftKg: 0, newCraft: 0 });
    expect(found.notCounted).toEqual([]);
  });

  test("what the depot loses while the load is brought together comes by tanker too", () => {
    // Half of the hydrogen of a day is lost in 50 days: it comes evenly, q = m·k/(1 − e^−kT) = m·ln 2/(0.5 · 50 days), so
    // that m · 2 · ln 2 comes and m · 0.386294 is lost; of oxygen 4 kg a day. Each: hydrogen 1498.571 · 0.386294 = 578.889,
    // loaded 578.889/0.81 = 714.678; oxygen 200/0.9 = 222.222. Flights now by hydrogen: (1498.571 + 578.889)/810 = 2.564766.
    const waiting = {
      depotName: "Tarn",
      days: 50,
      lines: [
        { propellantId: "hydrogen", kPerDay: Math.LN2 / 50, cKgPerDay: 0 },
        { propellantId: "oxygen", kPerDay: 0, cKgPerDay: 4 },
      ],
    };
    const { each, first } = liftedBy(way!, { ...by, waiting });
    expect(each.atDepotKg).toBeCloseTo(714.678 + 222.222, 2);
    expect(each.tankerFlights).toBeCloseTo(2.564766, 5);
    expect(each.totalKg).toBeCloseTo(1850.088 + 9990.476 + 936.9 + 2.564766 * 500, 1);
    // First: hydrogen 1568.571 · 0.386294 / 0.81 = 748.061.
    expect(first.atDepotKg).toBeCloseTo(748.061 + 222.222, 2);
    const none = liftedBy(way!, { ...by, waiting: { ...waiting, days: 0 } });
    expect(none.each).toEqual(found.each);
  });

  test("over a campaign tanker flights are whole", () => {
    // 2.614286 + 3 · 2.497619 = 10.107143
    expect(overCampaign(found, 4).tankerFlights).toBe(11);
    expect(overCampaign(found, 1).totalKg).toBe(found.first.totalKg);
    expect(overCampaign(found, 0).totalKg).toBe(0);
  });

  test("what a step drops is lifted again for every sortie", () => {
    const steps: Profile["steps"] = [burn(10), { kind: "jettison", name: "drop", massKg: 400, tanks: [] }];
    const dropping = liftedBy({ ...way!, profile: profileOf("q", "again", steps) }, by);
    expect(dropping.first.craftKg).toBe(10_400);
    expect(dropping.each.craftKg).toBe(400);
  });

  test("a price that is not stated leaves no sum, and so do two units", () => {
    const without = (more: Partial<CraftClass>) =>
      liftedBy({ ...way!, craftClass: { ...craftClass, ...more } }, by).first.cost;
    expect(without({ costPerFlight: null })).toBeNull();
    expect(without({ costUnit: "others" })).toBeNull();
  });

  test("a tanker that does not bring what is needed is refused by name", () => {
    const dry = { ...by, tanker: { ...tanker, propellants: [line("oxygen", 4000)] } };
    expect(() => liftedBy(way!, dry)).toThrow("Tanker brings no hydrogen");
  });

  test("what is not stated is named and not counted", () => {
    const unknown = liftedBy(
      { ...way!, craftClass: { ...craftClass, hardwareKg: null } },
      { ...by, tanker: { ...tanker, hardwareKg: null } },
    );
    expect(unknown.first.carrierKg).toBe(0);
    expect(unknown.notCounted).toHaveLength(2);
  });
});

test("a craft that is spent lifts itself every time; launched whole, with its own boil-off on the way", () => {
  const losing = { ...reusable, tanks: reusable.tanks.map((tank) => ({ ...tank, kPerDay: 0.01 })) };
  const craftClass = classOf({ id: "once", name: "Once", lander: losing });
  const ways = vehicleWays({ craftClasses: [craftClass], profiles: [profileOf("p", "once", [burn(DOUBLE), home])] });
  expect(ways.map(({ brought }) => brought)).toEqual(["filled at the depot", "launched whole"]);
  const [filled, whole] = ways.map((way) => liftedBy(way, by));
  expect(filled!.each).toEqual(filled!.first);
  expect(filled!.each).toMatchObject({ craftKg: 10_000, newCraft: 1 });
  // 10 980 kg are to be there after 10 days at 1 % a day: 10 980 · e^0.1 = 12 134.777.
  expect(whole!.each.propellantKg + whole!.each.onTheWayKg).toBeCloseTo(10_980 * 1.105170918, 3);
  expect(whole!.each.tankerFlights).toBe(0);
  // Not −0 either, which a kept report would not give back.
  expect(overCampaign(whole!, 3).tankerFlights).toBe(0);
});

describe("break-even", () => {
  const lifted = (totalKg: number): Lifted => ({
    propellantKg: 0,
    onTheWayKg: 0,
    atDepotKg: 0,
    craftKg: 0,
    carrierKg: 0,
    totalKg,
    tankerFlights: 0,
    newCraft: 0,
    cost: null,
  });
  const way = (first: number, each: number) => ({ first: lifted(first), each: lifted(each) });

  test.each([
    // 60 + 40 (n − 1) = 50 n at n = 2: both 100 after two.
    [way(60, 40), way(50, 50), { kind: "at", sorties: 2, early: "b" }],
    [way(50, 50), way(60, 40), { kind: "at", sorties: 2, early: "a" }],
    [way(65, 46), way(50, 50), { kind: "at", sorties: 4.75, early: "b" }],
    [way(60, 50), way(50, 50), { kind: "never", less: "b" }],
    [way(50, 40), way(60, 50), { kind: "never", less: "a" }],
    [way(50, 40), way(50, 40), { kind: "never", less: null }],
    [way(50, 40), way(50, 50), { kind: "never", less: "a" }],
  ])("%#", (a, b, found) => {
    expect(breakEven(a, b)).toEqual(found);
  });

  test("the whole number from which on it pays is the next above", () => {
    expect([2, 4.75, 1.0001].map(wholeSorties)).toEqual([3, 5, 2]);
  });
});

describe("the demonstration", () => {
  const { entities } = demoTarn();
  const craftClasses = entities.craftClass ?? [];
  const ways = vehicleWays({ craftClasses, profiles: entities.profile ?? [] });
  const packhorse = craftClasses.find(({ id }) => id === "packhorse")!;
  const plan = {
    depots: entities.depot ?? [],
    tanks: entities.tank ?? [],
    lossPeriods: entities.lossPeriod ?? [],
    sorties: (entities.sortie ?? []).filter(({ planCaseId }) => planCaseId === "baseline"),
  };
  const propellants = entities.propellant ?? [];
  const asked = { tanker: packhorse, mission: heronMission, propellants, waiting: depotWaiting(plan) };
  const named = (part: string) => ways.find(({ id }) => id.includes(part))!;
  const [single, spent] = [named("heron-direct"), named("wren-two-stages/filled")];
  const found = breakEven(liftedBy(single, asked), liftedBy(spent, asked));

  test("has a second way by a lander of two stages, without a finding, and a break-even", () => {
    expect(liftedBy(spent, asked).sheet.findings).toEqual([]);
    expect(liftedBy(spent, asked).sheet.stages.map(({ fate }) => fate)).toEqual(["dropped", "left on the surface"]);
    expect(found).toMatchObject({ kind: "at", early: "b" });
  });

  test("the number is where the two sums cross: one sortie before and after it the lesser is another", () => {
    const n = found.kind === "at" ? Math.floor(found.sorties) : 0;
    const total = (way: typeof single, sorties: number) => overCampaign(liftedBy(way, asked), sorties).totalKg;
    expect(total(spent, n)).toBeLessThanOrEqual(total(single, n));
    expect(total(single, n + 1)).toBeLessThan(total(spent, n + 1));
  });

  test("the input that moves it most is said, with the number a little less and a little more of it", () => {
    const moved = movesMost(single, spent, asked);
    const reach = moved.map(({ withLess, withMore }) => Math.abs(Number(withMore) - Number(withLess)));
    expect(reach.length).toBeGreaterThan(5);
    // More dry mass of the lander that is spent makes the other pay sooner; of the reusable one, later.
    const of = (name: string) => moved.find((each) => each.name === name)!;
    expect(Number(of("dry mass of Wren").withMore)).toBeLessThan(Number(of("dry mass of Wren").withLess));
    expect(Number(of("dry mass of Heron").withMore)).toBeGreaterThan(Number(of("dry mass of Heron").withLess));
    expect(movesMostSentence(moved)).toContain(`hangs most on ${moved[0]?.name}: 2\u202f% less gives`);
    expect(breakEvenSentence(liftedBy(single, asked), liftedBy(spent, asked), found)).toMatch(
      /^From 4 sorties on Heron, Single stage takes less from the ground than Wren, Two stages, spent, filled at the depot: break-even at 3\.6;/,
    );
  });

  test("ways of one class are compared too; a cargo that cannot be carried is not flown", () => {
    const cached = named("heron-cached");
    expect(breakEven(liftedBy(cached, asked), liftedBy(single, asked))).toEqual({ kind: "never", less: "a" });
    const heavy = { ...asked, mission: { ...heronMission, cargoDownKg: 2990 } };
    const cargo = movesMost(single, spent, heavy).find(({ name }) => name === "cargo down");
    expect(cargo?.withMore ?? "not flown").toBe("not flown");
  });
});
