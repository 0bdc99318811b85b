/** Boil-off at the depot while a sortie's propellant is brought together: by hand, by small steps, and which rates and days are taken. */
import { describe, expect, test } from "vitest";
import { demoTarn } from "../../../app/demo/tarn.ts";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import { DAY_MS } from "../../../app/ground/quantity.ts";
import { depotWaiting, lostWaiting } from "../../../app/ways/depot-waiting.ts";
import { liftedNotes } from "../../../app/ways/lifted-words.ts";

describe("what is lost while it comes evenly", () => {
  test.each([
    // 3 kg a day for 40 days, however much it is.
    [5000, 0, 3, 40, 120],
    // k·T = ln 2: 1000 · (2 · ln 2 − 1).
    [1000, Math.LN2 / 30, 0, 30, 386.2943611],
    [1000, Math.LN2 / 30, 3, 30, 476.2943611],
    [1000, 0.01, 5, 0, 0],
  ])("%d kg at %d a day and %d kg a day over %d days: %d kg", (kg, k, c, days, lost) => {
    expect(lostWaiting(kg, k, c, days)).toBeCloseTo(lost, 6);
  });

  test("what comes in, carried forward by small steps, is there at the end", () => {
    const [kg, k, c, days, steps] = [6000, 0.0042, 7.5, 118, 200_000];
    const inflow = (kg + lostWaiting(kg, k, c, days)) / days;
    const dt = days / steps;
    let level = 0;
    // Midpoint steps: the error is of the order of dt squared.
    for (let i = 0; i < steps; i += 1) {
      const middle = level + (inflow - c - k * level) * (dt / 2);
      level += (inflow - c - k * middle) * dt;
    }
    expect(level).toBeCloseTo(kg, 4);
  });
});

describe("of a plan", () => {
  const { entities } = demoTarn();
  const [depot] = entities.depot ?? [];
  const [sortie] = entities.sortie ?? [];
  const [tank] = entities.tank ?? [];
  const [period] = entities.lossPeriod ?? [];
  const at = (day: number): number => Date.UTC(2031, 0, 1) + day * DAY_MS;
  const loading = (day: number, more: object = {}) => ({
    ...sortie!,
    id: `s${String(day)}`,
    loadAt: at(day),
    status: "planned" as const,
    ...more,
  });
  const stated = (tankId: string, kPerDay: number, cKgPerDay: number, from: number | null, until: number | null) => ({
    ...period!,
    id: `${tankId}-${String(from)}`,
    tankId,
    fromAt: from === null ? null : at(from),
    untilAt: until === null ? null : at(until),
    basis: { kind: "stated" as const, kPerDay, cKgPerDay, source: "test" },
  });
  const hydrogen = (id: string, maximumFillKg: number, more: object = {}) => ({
    ...tank!,
    id,
    propellantId: "hydrogen",
    maximumFillKg,
    ...more,
  });
  const plan: Pick<PlanSnapshot, "depots" | "sorties" | "tanks" | "lossPeriods"> = {
    depots: [depot!],
    sorties: [loading(100), loading(300), loading(180), loading(10, { status: "flown" })],
    tanks: [hydrogen("a", 3000), hydrogen("b", 1000), hydrogen("aboard", 9000, { ownerKind: "craft", ownerId: "x" })],
    // Days 0 to 300: of "a" 0.002 for 150 and 0.004 for 150 days, mean 0.003; of "b" 0.001 and 6 kg a day.
    lossPeriods: [
      stated("a", 0.002, 0, null, 150),
      stated("a", 0.004, 0, 150, null),
      stated("b", 0.001, 6, null, null),
      stated("aboard", 0.5, 50, null, null),
    ],
  };

  test("the mean time between planned loadings, and the mean of the rates stated for it", () => {
    // Loadings on days 100, 180 and 300: 100 days apart; k = (3 · 0.003 + 1 · 0.001)/4.
    const found = depotWaiting(plan);
    expect(found).toMatchObject({ depotName: "Tarn", days: 100 });
    expect(found?.lines).toHaveLength(1);
    expect(found?.lines[0]?.kPerDay).toBeCloseTo(0.0025, 12);
    expect(found?.lines[0]?.cKgPerDay).toBeCloseTo(6, 12);
  });

  test("one planned sortie has no time to the next: not counted, and said, unless days are stated", () => {
    const one = { ...plan, sorties: [loading(100)] };
    expect(depotWaiting(one)).toBeNull();
    expect(liftedNotes({ waiting: null, propellants: [] })[0]).toMatch(/^boil-off at the depot is not counted/);
    expect(depotWaiting(one, 80)).toMatchObject({ days: 80 });
    expect(depotWaiting({ ...plan, sorties: [] }, 80)).toBeNull();
  });

  test("the page says days and rates", () => {
    const words = liftedNotes({ waiting: depotWaiting(plan), propellants: entities.propellant ?? [] })[0];
    expect(words).toContain("comes to Tarn evenly over the 100 days");
    // 1 − e^−0.0025 = 0.249688 %.
    expect(words).toContain("hydrogen 6.0 kg and 0.250\u202f%");
  });
});
