/** A plant as flights and as a direct inflow, carried through the forecast. */
import { describe, expect, test } from "vitest";
import { levelAt } from "../../../app/forecast/curve.ts";
import { forecast } from "../../../app/forecast/forecast.ts";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import type { Entity } from "../../../app/entity/entities.ts";
import { entitySchemas } from "../../../app/entity/entities.ts";
import { demoTarn } from "../../../app/demo/tarn.ts";
import { flightsFromPlant, inflowFromPlant } from "../../../app/plant/plant-plan.ts";
import { FUEL_CELL_HYDROGEN_KG_PER_KWH, FUEL_CELL_OXYGEN_KG_PER_KWH } from "../../../app/plant/water-plant.ts";
import { glance } from "../../../app/supply/glance.ts";

const DAY = 86_400_000;
const START_AT = Date.UTC(2032, 0, 1);
const { entities } = demoTarn();
const planCase = entities.planCase[0]!;

const source: Entity<"source"> = {
  id: "rim-plant",
  name: "Rim plant",
  kind: "plant",
  note: "",
  plant: {
    waterKgPerDay: 200,
    recoveryFraction: 1,
    mixtureRatio: 5.5,
    persons: 0,
    fuelCellKWhPerDay: 0,
    fuelCellHydrogenKgPerKWh: FUEL_CELL_HYDROGEN_KG_PER_KWH,
    fuelCellOxygenKgPerKWh: FUEL_CELL_OXYGEN_KG_PER_KWH,
    electrolysisKWhPerKgHydrogen: 55,
    liquefactionKWhPerKgHydrogen: 10,
    liquefactionKWhPerKgOxygen: 1,
    duty: [
      { fromAt: START_AT - 50 * DAY, untilAt: START_AT + 100 * DAY },
      { fromAt: START_AT + 150 * DAY, untilAt: START_AT + 200 * DAY },
    ],
  },
};

const plan: PlanSnapshot = {
  planCase,
  asOfAt: START_AT,
  horizonAt: START_AT + 400 * DAY,
  propellants: entities.propellant,
  depots: entities.depot,
  sources: [...entities.source, source],
  craftClasses: entities.craftClass,
  profiles: entities.profile,
  craft: entities.craft,
  tanks: entities.tank,
  lossPeriods: [],
  campaigns: [],
  flights: [],
  sorties: [],
  riskInputs: [],
  opening: [],
};
const tanker = plan.craft.find(({ classId }) => classId === "drover")!;
const request = { source, craftId: tanker.id, depotId: "tarn" };

/** By hand: 200 kg of water make 200 · 0.727394 = 145.48 kg of pairs a day (F). */
const PAIRS = 145.4788;

describe("as flights", () => {
  const flights = flightsFromPlant(plan, request);
  const drover = plan.craftClasses.find(({ id }) => id === "drover")!;
  const loadOf = (id: string): number => drover.propellants.find((line) => line.propellantId === id)!.loadKg;

  test("each carries what its class can at the mixture ratio, and leaves when it is ready, not before the as-of instant", () => {
    const loadKg = Math.min(loadOf("hydrogen") * 6.5, (loadOf("oxygen") * 6.5) / 5.5);
    const readyAt = [1, 2, 3, 4, 5, 6, 7, 8]
      .map((n) => (n * loadKg) / PAIRS)
      .filter((days) => days <= 200)
      .map((days) => (days <= 150 ? START_AT + (days - 50) * DAY : START_AT + days * DAY))
      .filter((at) => at >= START_AT && at + drover.tripDays * DAY <= plan.horizonAt);
    expect(flights.length).toBe(readyAt.length);
    expect(flights.length).toBeGreaterThan(0);
    for (const [place, flight] of flights.entries()) {
      expect(Math.abs(flight.departAt - readyAt[place]!)).toBeLessThan(60_000);
      const [hydrogen, oxygen] = flight.loads.map(({ loadedKg }) => loadedKg);
      expect(oxygen! / hydrogen!).toBeCloseTo(5.5, 5);
      expect(hydrogen! + oxygen!).toBeCloseTo(loadKg, 2);
      expect(entitySchemas.flight.parse(flight)).toEqual(flight);
    }
    expect(new Set(flights.map(({ id }) => id)).size).toBe(flights.length);
  });

  test("again on a plan that has them, their keys are new", () => {
    const again = flightsFromPlant({ ...plan, flights }, request);
    const keys = new Set(flights.map(({ key }) => key));
    expect(again.every(({ key }) => !keys.has(key))).toBe(true);
  });
});

test("as a direct inflow: the tanks rise by the plant's rate in duty, and hold in between; the line holds one port", () => {
  const changes = inflowFromPlant(plan, source, "tarn");
  const put = <K extends "craftClass" | "craft" | "flight">(kind: K) =>
    changes.flatMap((change) => (change.op === "put" && change.kind === kind ? [change.value as Entity<K>] : []));
  for (const change of changes)
    if (change.op === "put") expect(entitySchemas[change.kind].safeParse(change.value).success).toBe(true);
  const fed: PlanSnapshot = {
    ...plan,
    craftClasses: [...plan.craftClasses, ...put("craftClass")],
    craft: [...plan.craft, ...put("craft")],
    flights: put("flight"),
  };
  const seen = forecast(fed);
  const hydrogenAt = (day: number): number =>
    levelAt(seen.levels.find(({ tankId }) => tankId === "tarn-hydrogen")!.segments, START_AT + day * DAY);
  const rate = PAIRS / 6.5;
  expect(hydrogenAt(50)).toBeCloseTo(50 * rate, 1);
  expect(hydrogenAt(120)).toBeCloseTo(100 * rate, 1);
  expect(hydrogenAt(175)).toBeCloseTo(125 * rate, 1);
  expect(hydrogenAt(300)).toBeCloseTo(150 * rate, 1);
  const conflicts = (ports: number) => {
    const depots = fed.depots.map((depot) => ({ ...depot, ports }));
    return glance({ ...fed, depots }, seen).findings.filter(({ kind }) => kind === "port conflict");
  };
  expect(conflicts(1)).toEqual([]);
  expect(conflicts(0).length).toBeGreaterThan(0);
});

describe("what is refused, in words", () => {
  const described = source.plant!;
  test("a plant without water, a source that is none, a tanker that carries one of the two, no duty ahead", () => {
    const dry = { ...source, plant: { ...described, waterKgPerDay: 0 } };
    expect(() => flightsFromPlant(plan, { ...request, source: dry })).toThrow(/makes no propellant/);
    expect(() => inflowFromPlant(plan, { ...source, plant: null }, "tarn")).toThrow(/not described as a plant/);
    const oneOnly = plan.craftClasses.map((row) => ({
      ...row,
      propellants: row.propellants.filter(({ propellantId }) => propellantId !== "oxygen"),
    }));
    expect(() => flightsFromPlant({ ...plan, craftClasses: oneOnly }, request)).toThrow(/both hydrogen and oxygen/);
    const past = { ...source, plant: { ...described, duty: [{ fromAt: 0, untilAt: DAY }] } };
    expect(() => inflowFromPlant(plan, past, "tarn")).toThrow(/no duty between/);
    const noOxygen = plan.propellants.filter(({ fluid }) => fluid !== "O2");
    expect(() => inflowFromPlant({ ...plan, propellants: noOxygen }, source, "tarn")).toThrow(/is oxygen/);
  });

  test("duty that overlaps or ends early does not get into a ledger", () => {
    const [first] = described.duty;
    const put = (duty: readonly object[]) =>
      entitySchemas.source.safeParse({ ...source, plant: { ...described, duty } });
    expect(put([first!, first!]).error?.issues[0]?.message).toContain("overlap");
    expect(put([{ fromAt: 5, untilAt: 5 }]).error?.issues[0]?.path.join(".")).toBe("plant.duty.0.untilAt");
  });
});
