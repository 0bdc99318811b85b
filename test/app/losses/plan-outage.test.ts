/** A plan with an outage beside the plan: kilograms, flights, sorties; by coolers of a heat balance or by a stated rate. */
import { describe, expect, test } from "vitest";
import { demoTarn } from "../../../app/demo/tarn.ts";
import { lossOver } from "../../../app/storage/level.ts";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import type { LossPeriod } from "../../../app/entity/loss-period.ts";
import type { HeatBalance } from "../../../app/entity/heat-balance.ts";
import { planOutageCost, planWithOutage } from "../../../app/losses/plan-outage.ts";

const DAY = 86_400_000;
const START_AT = Date.UTC(2032, 0, 1);
const { entities } = demoTarn();

const balance: HeatBalance = {
  kind: "heat balance",
  fluid: "H2",
  pressureKPa: 101.325,
  insulation: null,
  paths: [{ cause: "other", label: "all heat", heatW: 100, note: "" }],
  environmentFactor: 1,
  coolers: [{ name: "A", lift: [{ temperatureK: 20, liftW: 80 }], powerW: 1, massKg: 1, isRunning: true, note: "" }],
};

const period = (id: string, change: Partial<LossPeriod>): LossPeriod => ({
  id,
  tankId: "tarn-hydrogen",
  planCaseId: null,
  fromAt: null,
  untilAt: null,
  basis: balance,
  reason: "cooler running",
  note: "",
  ...change,
});

/** Ten tonnes of hydrogen, nothing moves for a hundred days. */
const plan = (lossPeriods: readonly LossPeriod[], change: Partial<PlanSnapshot> = {}): PlanSnapshot => ({
  planCase: { ...entities.planCase[0]!, shortPolicy: "stand down" },
  asOfAt: START_AT,
  horizonAt: START_AT + 100 * DAY,
  propellants: entities.propellant,
  depots: entities.depot,
  sources: entities.source,
  craftClasses: entities.craftClass,
  profiles: entities.profile,
  craft: entities.craft,
  tanks: entities.tank,
  lossPeriods,
  campaigns: [],
  flights: [],
  sorties: [],
  riskInputs: [],
  opening: [{ tankId: "tarn-hydrogen", massKg: 10_000 }],
  ...change,
});

const outage = { tankIds: ["tarn-hydrogen"], fromAt: START_AT + 10 * DAY, untilAt: START_AT + 30 * DAY };

test("coolers off for 20 days: 80 W more, 80 · 20 · 0.193693 kg (E), and no flight to count them in", () => {
  const cost = planOutageCost(plan([period("base", {})]), { ...outage, during: { kind: "coolers off" } });
  expect(cost.byPropellant).toHaveLength(1);
  expect(cost.byPropellant[0]!.extraLostKg).toBeCloseTo(80 * 20 * 0.193693, 2);
  expect(cost.byPropellant[0]!.flights).toBeNull();
});

test("only where coolers are in force: a stated period in the middle stays as it is", () => {
  const middle = period("stated", {
    fromAt: START_AT + 15 * DAY,
    untilAt: START_AT + 25 * DAY,
    basis: { kind: "stated", kPerDay: 0, cKgPerDay: 1 },
  });
  const cost = planOutageCost(plan([period("base", {}), middle]), { ...outage, during: { kind: "coolers off" } });
  expect(cost.byPropellant[0]!.extraLostKg).toBeCloseTo(80 * 10 * 0.193693, 2);
});

test("a stated rate, which also outranks a plan case's own period that begins at the same instant", () => {
  const own = period("zzz", { planCaseId: entities.planCase[0]!.id, fromAt: outage.fromAt });
  const during = { kind: "stated", kPerDay: 0.01, cKgPerDay: 0 } as const;
  const changed = planWithOutage(plan([own]), { ...outage, during });
  expect(changed.lossPeriods).toHaveLength(2);
  const cost = planOutageCost(plan([own]), { ...outage, during });
  const normally = 20 * 20 * 0.193693;
  expect(cost.byPropellant[0]!.extraLostKg).toBeCloseTo(lossOver(10_000, 0.01, 0, 0, 20) - normally, 2);
});

describe("what it refuses", () => {
  test("no coolers to stop, or an end before the beginning", () => {
    const stated = period("base", { basis: { kind: "stated", kPerDay: 0.001, cKgPerDay: 0 } });
    expect(() => planOutageCost(plan([stated]), { ...outage, during: { kind: "coolers off" } })).toThrow(
      /No heat balance/,
    );
    expect(() =>
      planWithOutage(plan([]), { ...outage, untilAt: outage.fromAt, during: { kind: "coolers off" } }),
    ).toThrow(/ends before it begins/);
  });
});

test("on the demonstration a long outage makes a sortie fare worse, and counts in flights", () => {
  const document = demoTarn();
  const asOfAt = Math.max(...document.entries.map(({ at }) => at));
  const planCase = entities.planCase[0]!;
  const ofCase = <T extends { readonly planCaseId: string | null }>(rows: readonly T[]): readonly T[] =>
    rows.filter((row) => row.planCaseId === null || row.planCaseId === planCase.id);
  const whole = plan(ofCase(entities.lossPeriod), {
    planCase,
    asOfAt,
    horizonAt: planCase.horizonAt,
    campaigns: ofCase(entities.campaign),
    flights: ofCase(entities.flight),
    sorties: ofCase(entities.sortie),
    riskInputs: ofCase(entities.riskInput),
    opening: [
      { tankId: "tarn-hydrogen", massKg: 5680 },
      { tankId: "tarn-oxygen", massKg: 23_930 },
      { tankId: "tarn-hydrazine", massKg: 914 },
    ],
  });
  const cost = planOutageCost(whole, {
    tankIds: ["tarn-hydrogen"],
    fromAt: asOfAt,
    untilAt: asOfAt + 300 * DAY,
    during: { kind: "stated", kPerDay: 0.006, cKgPerDay: 0 },
  });
  expect(cost.byPropellant[0]!.extraLostKg).toBeGreaterThan(500);
  expect(cost.byPropellant[0]!.flights).toBeGreaterThan(0.1);
  expect(cost.sorties.length).toBeGreaterThan(0);
  expect(cost.sorties.every((sortie) => sortie.before !== sortie.after)).toBe(true);
});
