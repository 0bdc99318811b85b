/** Flights that a campaign needs: cases worked by hand, and a search over all schedules of small random plans. */
import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { compile } from "../../../app/forecast/compile.ts";
import { forecast } from "../../../app/forecast/forecast.ts";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import { createEngine } from "../../../app/forecast/propagate.ts";
import type { Entity } from "../../../app/entity/entities.ts";
import { planWithDemand } from "../../../app/ways/campaign-plan.ts";
import { neededFlights } from "../../../app/ways/needed-flights.ts";
import { spareFlights } from "../../../app/ways/spare-flights.ts";
import { portConflicts } from "../../../app/supply/port-conflicts.ts";
import {
  carries,
  DAY,
  day,
  depot,
  flight,
  lossPeriod,
  smallPlan,
  sortie,
  START,
  tank,
} from "../forecast/small-plan.ts";
import { runs } from "../../suite/runs.ts";
import { runToEnd } from "./run-to-end.ts";

const roomy = [depot("tarn", { ports: 99 })];
const tankerOf = (plan: PlanSnapshot): Entity<"craftClass"> => plan.craftClasses.find(({ id }) => id === "packhorse")!;
const needed = (plan: PlanSnapshot) => runToEnd(neededFlights(plan, tankerOf(plan)));
const allSupplied = (plan: PlanSnapshot): boolean =>
  forecast(plan).sorties.every(({ status }) => status === "supplied");

describe("without loss the count is a division rounded up", () => {
  // Three sorties of 10 t and flights of 4 t: after 1, 2 and 3 sorties 10, 20 and 30 t: 3, 5 and 8 flights.
  const plan = smallPlan({
    depots: roomy,
    tanker: [carries({ loadKg: 4000 })],
    sorties: [sortie("s1", 40, 10_000), sortie("s2", 80, 10_000), sortie("s3", 120, 10_000)],
  });

  test("8 flights of 4 t for 30 t; each arrives when it is needed and not before", () => {
    const answer = needed(plan);
    expect(answer.unmet).toBeNull();
    expect(answer.added.map(({ arriveAt }) => Math.round((arriveAt - START) / DAY))).toEqual([
      40, 40, 40, 80, 80, 120, 120, 120,
    ]);
    expect(answer).toMatchObject({ flights: 8, deliveredKg: 32_000, boiledOffKg: 0, sparedIds: [] });
    expect(allSupplied({ ...plan, flights: answer.added.map((row) => ({ ...row, craftId: "packhorse-1" })) })).toBe(
      true,
    );
  });

  test("what is in the tank counts, and the reserve must stay: 5 t in it and 2 t of reserve leave 27 t: 7 flights", () => {
    const stocked = { ...plan, tanks: [tank("a", { reserveKg: 2000 })], opening: [{ tankId: "a", massKg: 5000 }] };
    expect(needed(stocked).added).toHaveLength(7);
  });

  test("what each sortie brings home is not needed again: 10 + 9 + 9 = 28 t: 7 flights", () => {
    const sorties = [1, 2, 3].map((n) => sortie(`s${n}`, 40 * n, 10_000, { returnKg: 1000 }));
    expect(needed({ ...plan, sorties }).added).toHaveLength(7);
  });

  test("planned flights are counted on, and those that are not needed can be left out", () => {
    const planned = [5, 10, 15, 20, 25, 30, 60, 100, 110, 130].map((at, n) => flight(`f${n}`, at - 4, at, 4000));
    const answer = needed({ ...plan, flights: planned });
    // Ten flights; 8 are needed and the one that arrives after the last loading is none of them.
    expect(answer.sparedIds).toHaveLength(2);
    expect(answer.sparedIds).toContain("f9");
    expect(answer).toMatchObject({ added: [], isMostSpared: true, flights: 8 });
    // Firm ones are not left out.
    const firm = planned.map((row) => (row.id === "f9" ? { ...row, status: "firm" as const } : row));
    expect(needed({ ...plan, flights: firm }).sparedIds).toHaveLength(1);
  });
});

test("with loss it takes more: 12 t on day 100 and again on day 200 at 1 % a day, worked by hand", () => {
  // k = 0.01 a day, flights of 5 t, of which 100 kg stay aboard, 50 kg cool the line, and 2 % of the rest are lost:
  // (5000 − 100 − 50) · 0.98 = 4753 kg each. Day 100: 3 bring 14 259, 2259 are left; by day 200
  // 2259 · e^−1 = 831.04 of them. 12 000 − 831.04 = 11 168.96: 3 more (without loss 9741, which is 3 as well).
  // Day 250: 831.04 + 14 259 − 12 000 = 3090.04, · e^−0.5 = 1874.20; 8200 − 1874.20 = 6325.80: 2 more. Without loss
  // 4 · 4753 − … : 5259 would be left and one flight would do.
  const plan = smallPlan({
    depots: roomy,
    tanker: [carries({ loadKg: 5000, residualKg: 100, chilldownKg: 50, lossFraction: 0.02 })],
    lossPeriods: [lossPeriod("p", "a", 0.01, 0)],
    sorties: [sortie("s1", 100, 12_000), sortie("s2", 200, 12_000), sortie("s3", 250, 8200)],
  });
  const answer = needed(plan);
  expect(answer.added.map(({ arriveAt }) => Math.round((arriveAt - START) / DAY))).toEqual([
    100, 100, 100, 200, 200, 200, 250, 250,
  ]);
  expect(answer.deliveredKg).toBeCloseTo(8 * 4753, 6);
  // What was lost until day 250, and of the 1874.20 + 9506 − 8200 = 3180.20 that are left until day 365: 1 − e^−1.15.
  const lost = 2259 * (1 - Math.exp(-1)) + (2259 * Math.exp(-1) + 2259) * (1 - Math.exp(-0.5));
  const left = (2259 * Math.exp(-1) + 2259) * Math.exp(-0.5) + 2 * 4753 - 8200;
  expect(answer.boiledOffKg).toBeCloseTo(lost + left * (1 - Math.exp(-1.15)), 6);
});

test("a metered handover is over before the sortie loads", () => {
  const plan = smallPlan({
    depots: roomy,
    tanker: [carries({ loadKg: 4000, rateKgPerDay: 3000 })],
    sorties: [sortie("s1", 40, 7000)],
  });
  const answer = needed(plan);
  expect(answer.unmet).toBeNull();
  // 4000 / 3000 = 1.333 days.
  for (const { arriveAt } of answer.added) expect(arriveAt).toBe(day(40) - 1920 * 60_000);
});

test("with one port they come one after the other, and nothing is crowded", () => {
  const plan = smallPlan({
    depots: [depot("tarn", { ports: 1 })],
    tanker: [carries({ loadKg: 4000 })],
    flights: [flight("f", 30, 37, 1000, { status: "firm" })],
    sorties: [sortie("s1", 40, 9000)],
  });
  const answer = needed(plan);
  // A port is free on day 40, then from 35 (the firm one has it from 37 to 39).
  expect(answer.added.map(({ arriveAt }) => (arriveAt - START) / DAY)).toEqual([40, 35]);
  const then = {
    ...plan,
    flights: [...plan.flights, ...answer.added.map((row) => ({ ...row, craftId: "packhorse-1" }))],
  };
  expect(portConflicts(then, forecast(then))).toEqual([]);
});

describe("where no number of flights helps, it says what is in the way", () => {
  const tanker = [carries({ loadKg: 4000 })];
  test.each([
    [
      "full tanks are not enough",
      {
        tanker,
        tanks: [tank("a", { maximumFillKg: 9000, heelKg: 200, reserveKg: 700 })],
        sorties: [sortie("s1", 40, 8500)],
      },
      // 8800 above the heel; 8500 and 500 of reserve above it.
      { kind: "maximum fill", propellantId: "lox", fullKg: 8800, requiredKg: 9000 },
    ],
    ["a flight that leaves now is too late", { tanker, sorties: [sortie("s1", 3, 5000)] }, { kind: "too late" }],
    [
      "the class does not bring it",
      { tanker: [carries({ propellantId: "lh2", loadKg: 900 })], sorties: [sortie("s1", 40, 5000)] },
      { kind: "not brought", propellantId: "lox" },
    ],
    [
      "the lander is not back",
      { tanker, sorties: [sortie("s1", 40, 5000), sortie("s2", 45, 5000)] },
      { kind: "lander away" },
    ],
    [
      "there is no port",
      { tanker, depots: [depot("tarn", { ports: 0 })], sorties: [sortie("s1", 40, 5000)] },
      { kind: "no port" },
    ],
  ])("%s", (_what, wanted, why) => {
    const answer = needed(smallPlan({ depots: roomy, ...wanted }));
    expect(answer.unmet?.why).toEqual(why);
  });
});

test("only planned sorties of the lander class get the demand of the way", () => {
  const plan = smallPlan({ sorties: [sortie("s1", 10, 5, { status: "flown" }), sortie("s2", 40, 5)] });
  const lines = [{ propellantId: "lox", loadKg: 700, returnKg: 20 }];
  const [flown, ahead] = planWithDemand(plan, "heron", lines).sorties;
  expect(flown).toBe(plan.sorties[0]);
  expect(ahead!.demand).toEqual({ kind: "stated", lines });
  expect(planWithDemand(plan, "other", lines).sorties).toEqual(plan.sorties);
});

/** The fewest flights over every way to place up to `most` of them at the given days; Infinity: not with so many. */
const fewest = (plan: PlanSnapshot, days: readonly number[], most: number): number => {
  const schedules = (count: number, from: number): number[][] =>
    count === 0
      ? [[]]
      : days.slice(from).flatMap((at, n) => schedules(count - 1, from + n).map((others) => [at, ...others]));
  for (let count = 0; count <= most; count += 1)
    for (const schedule of schedules(count, 0)) {
      const extra = schedule.map((at, n) => flight(`x${n}`, at - 5, at, 1000));
      const then = { ...plan, flights: [...plan.flights, ...extra] };
      if (allSupplied(then) && portConflicts(then, forecast(then)).length === 0) return count;
    }
  return Infinity;
};

test("no schedule of a small random plan takes fewer flights", () => {
  const whole = (min: number, max: number) => fc.integer({ min, max });
  let met = 0;
  fc.assert(
    fc.property(
      fc.record({
        k: fc.constantFrom(0, 0.01, 0.03),
        c: fc.constantFrom(0, 4),
        maximumFillKg: whole(1500, 3500),
        reserveKg: whole(0, 300),
        openingKg: whole(0, 1200),
        ports: fc.constantFrom(2, 99),
        planned: fc.array(whole(6, 40), { maxLength: 2 }),
        loads: fc.array(whole(100, 1800), { minLength: 1, maxLength: 3 }),
        chilldownKg: fc.constantFrom(0, 40),
      }),
      (drawn) => {
        const plan = smallPlan({
          depots: [depot("tarn", { ports: drawn.ports })],
          tanks: [tank("a", drawn)],
          opening: { a: drawn.openingKg },
          lossPeriods: [lossPeriod("p", "a", drawn.k, drawn.c)],
          tanker: [carries({ loadKg: 1000, chilldownKg: drawn.chilldownKg })],
          flights: drawn.planned.map((at, n) => flight(`f${n}`, at - 5, at, 700, { status: "firm" })),
          sorties: drawn.loads.map((loadKg, n) => sortie(`s${n}`, 12 + 14 * n, loadKg)),
          horizonDay: 60,
        });
        const answer = needed(plan);
        // Every loading, and the days before it on which the port may be free.
        const days = drawn.loads.flatMap((_, n) => [12, 10, 8, 6].map((at) => at + 14 * n)).toSorted((a, b) => a - b);
        if (answer.unmet === null) {
          met += 1;
          expect(fewest(plan, days, answer.added.length - 1)).toBe(Infinity);
        } else expect(fewest(plan, days, 3)).toBe(Infinity);
      },
    ),
    { numRuns: runs(25) },
  );
  expect(met).toBeGreaterThan(6);
});

test("no greater set of planned flights can be left out, and a search cut short says so", () => {
  const whole = (min: number, max: number) => fc.integer({ min, max });
  fc.assert(
    fc.property(
      fc.array(fc.tuple(whole(1, 50), whole(100, 1500)), { minLength: 1, maxLength: 7 }),
      fc.array(whole(100, 1200), { minLength: 1, maxLength: 3 }),
      fc.constantFrom(0, 0.02),
      (flights, loads, k) => {
        const plan = smallPlan({
          depots: roomy,
          opening: { a: 2500 },
          lossPeriods: [lossPeriod("p", "a", k, 0)],
          flights: flights.map(([at, kg], n) => flight(`f${n}`, at - 1, at, kg)),
          sorties: loads.map((loadKg, n) => sortie(`s${n}`, 15 + 15 * n, loadKg)),
          horizonDay: 60,
        });
        fc.pre(allSupplied(plan));
        const sets = Array.from({ length: 2 ** flights.length }, (_, bits) =>
          plan.flights.filter((_row, n) => (bits & (1 << n)) === 0),
        );
        const most = Math.max(
          ...sets.filter((kept) => allSupplied({ ...plan, flights: kept })).map((kept) => flights.length - kept.length),
        );
        const answer = needed(plan);
        expect(answer.sparedIds).toHaveLength(most);
        expect(answer.isMostSpared).toBe(true);
        expect(allSupplied({ ...plan, flights: plan.flights.filter(({ id }) => !answer.sparedIds.includes(id)) })).toBe(
          true,
        );
        // Cut short, it still has a set that holds, and claims no more.
        const cut = runToEnd(spareFlights(plan, createEngine(compile(plan)), 0));
        expect(cut.flightIds.length).toBeLessThanOrEqual(most);
        if (cut.isMost) expect(cut.flightIds).toHaveLength(most);
        expect(allSupplied({ ...plan, flights: plan.flights.filter(({ id }) => !cut.flightIds.includes(id)) })).toBe(
          true,
        );
      },
    ),
    { numRuns: runs(15) },
  );
});
