/** Every input of a run against an edit of the plan that says the same; watching, stopping and keeping against a run in one go. */
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compile } from "../../app/forecast/compile.ts";
import { levelAt } from "../../app/forecast/curve.ts";
import { forecast } from "../../app/forecast/forecast.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { type Engine, createEngine } from "../../app/forecast/propagate.ts";
import { lostKg, massKg, needMarginKg } from "../../app/forecast/read-run.ts";
import { createOutages } from "../../app/forecast/run.ts";
import { carries, day, flight, lossPeriod, smallPlan, sortie, tank } from "../app/forecast/small-plan.ts";
import { randomPlan } from "./random-plan.ts";

const DAY = 86_400_000;

/** All that a run says. */
const resultsOf = (engine: Engine) => {
  const run = engine.go();
  const { plan } = run;
  return {
    levels: plan.tankIds.map((_, tank) => [massKg(run, tank), lostKg(run, tank)]),
    statuses: [...run.sortieStatus],
    outcomes: [...run.sortieOutcome],
    loaded: [...run.sortieLoadedAt],
    margins: plan.needLoadKg.length === 0 ? [] : [...plan.needLoadKg.keys()].map((need) => needMarginKg(run, need)),
  };
};

const spec = {
  tanks: [tank("a", { maximumFillKg: 20_000, heelKg: 50, reserveKg: 400 })],
  opening: { a: 4000 },
  lossPeriods: [lossPeriod("p", "a", 0.004, 2)],
  tanker: [carries({ chilldownKg: 20, lossFraction: 0.01 })],
  lander: [carries({ kPerDay: 0.01, chilldownKg: 5, lossFraction: 0.02 })],
  flights: [flight("f", 5, 10, 3000), flight("g", 12, 20, 2500)],
  sorties: [sortie("s", 15, 5000, { returnKg: 300 }), sortie("t", 40, 3000)],
  horizonDay: 100,
};

const plan = smallPlan(spec);
const edited = (change: Partial<Parameters<typeof smallPlan>[0]>) =>
  resultsOf(createEngine(compile(smallPlan({ ...spec, ...change }))));
const plain = edited({});

/** The run under an input says what the edited plan says, and that is not what the plan says. */
const expectSame = (vary: (engine: Engine) => void, expected: ReturnType<typeof edited>): void => {
  const engine = createEngine(compile(plan));
  expect(resultsOf(engine)).toEqual(plain);
  vary(engine);
  expect(resultsOf(engine)).toEqual(expected);
  expect(expected).not.toEqual(plain);
  engine.resetPlan();
  expect(resultsOf(engine)).toEqual(plain);
};

describe("an input says the same as an edit of the plan", () => {
  it("an opening level", () =>
    expectSame((engine) => (engine.input.openingKg[0] = 1500), edited({ opening: { a: 1500 } })));

  it("a flight that does not fly", () =>
    expectSame((engine) => (engine.input.flightIsOff[0] = 1), edited({ flights: spec.flights.slice(1) })));

  it("a flight's load", () =>
    expectSame(
      (engine) => engine.setLine(0, 1000, 20, 0.99),
      edited({ flights: [flight("f", 5, 10, 1000), ...spec.flights.slice(1)] }),
    ));

  it("chilldown and share kept of a handover", () =>
    expectSame(
      (engine) => {
        engine.setLine(0, 3000, 90, 1 - 0.2);
        engine.setLine(1, 2500, 90, 1 - 0.2);
      },
      edited({ tanker: [carries({ chilldownKg: 90, lossFraction: 0.2 })] }),
    ));

  it("what a sortie needs, and its handover", () =>
    expectSame(
      (engine) => {
        engine.setNeed(0, 6500, 60, 1 - 0.1);
        engine.setNeed(1, 3000, 60, 1 - 0.1);
      },
      edited({
        lander: [carries({ kPerDay: 0.01, chilldownKg: 60, lossFraction: 0.1 })],
        sorties: [sortie("s", 15, 6500, { returnKg: 300 }), sortie("t", 40, 3000)],
      }),
    ));

  it("a cooler that is down twice, also over a planned change of rate; then the greater loss holds", () => {
    const planned = [...spec.lossPeriods, lossPeriod("q", "a", 0.006, 2, 30, 45)];
    const engine = createEngine(compile(smallPlan({ ...spec, lossPeriods: planned })));
    const { input } = engine;
    input.outages = createOutages(4);
    // In no order, as any may come.
    [35, 12, 50, 18].forEach((at, n) => {
      const isDown = at === 12 || at === 35;
      input.outages.at[n] = day(at);
      input.outages.tank[n] = 0;
      input.outages.kPerDay[n] = isDown ? 0.02 : 0;
      input.outages.cKgPerDay[n] = isDown ? 1 : 0;
    });
    input.outages.count = 4;
    const down = [lossPeriod("x", "a", 0.02, 1, 12, 18), lossPeriod("y", "a", 0.02, 1, 35, 50)];
    const expected = edited({ lossPeriods: [...planned, ...down] });
    expect(resultsOf(engine)).toEqual(expected);
    input.outages.count = 0;
    expect(resultsOf(engine)).toEqual(edited({ lossPeriods: planned }));
    // Less loss than planned is no outage.
    [0.001, 0].forEach((k, n) => {
      input.outages.at[n] = day(12 + n);
      input.outages.kPerDay[n] = k;
      input.outages.cKgPerDay[n] = 0;
    });
    input.outages.count = 2;
    expect(resultsOf(engine).loaded).toEqual(edited({ lossPeriods: planned }).loaded);
  });

  it("a flight from beyond the horizon that comes early", () => {
    const late = smallPlan({ ...spec, flights: [flight("f", 5, 10, 3000), flight("g", 112, 120, 2500)] });
    const engine = createEngine(compile(late));
    engine.input.flightSlipMs[1] = -100 * DAY;
    expect(resultsOf(engine)).toEqual(plain);
  });
});

const any = randomPlan({ days: 20, flights: 8, sorties: 6, constantLoss: true, betweenDepots: true });

describe("for every plan", () => {
  it("watched levels are those of the curves, and watching changes nothing", () =>
    fc.assert(
      fc.property(any, fc.array(fc.integer({ min: -4, max: 90 }), { maxLength: 12 }), (one: PlanSnapshot, quarters) => {
        const instants = Float64Array.from(
          quarters.toSorted((a, b) => a - b),
          (quarter) => day(quarter / 4),
        );
        const engine = createEngine(compile(one));
        const before = resultsOf(engine);
        engine.watch(instants);
        expect(resultsOf(engine)).toEqual(before);
        const { levels } = forecast(one);
        instants.forEach((at, place) =>
          engine.run.plan.tankIds.forEach((_id, index) => {
            const seen = engine.watchedKg[index * instants.length + place] ?? 0;
            const isInside = (engine.run.plan.tankPool[index] ?? -1) >= 0 && at >= one.asOfAt && at <= one.horizonAt;
            if (!isInside) expect(seen).toBeNaN();
            else if (at < one.horizonAt) expect(seen).toBeCloseTo(levelAt(levels[index]?.segments ?? [], at), 8);
            else expect(seen).toBe(massKg(engine.run, index));
          }),
        );
      }),
      { numRuns: 400 },
    ));

  it("a run that stops on its way, is kept, goes astray, is put back and goes on, is the run in one go", () =>
    fc.assert(
      fc.property(any, fc.integer({ min: 0, max: 160 }), fc.nat(7), (one: PlanSnapshot, eighth, pick) => {
        const engine = createEngine(compile(one));
        const flights = engine.input.flightIsLost.length;
        const whole = resultsOf(engine);
        engine.begin();
        engine.runUntil(day(eighth / 8));
        const kept = engine.state.slice();
        // Astray: all that is still to come slips, and a tank is filled.
        engine.input.flightSlipMs.fill(DAY);
        engine.setLevelKg(0, 1);
        engine.input.flightIsLost[pick % flights] = 1;
        engine.finish();
        engine.input.flightSlipMs.fill(0);
        engine.input.flightIsLost.fill(0);
        engine.state.set(kept);
        const run = engine.finish();
        expect([...run.sortieStatus]).toEqual(whole.statuses);
        expect([...run.sortieLoadedAt]).toEqual(whole.loaded);
        expect(run.plan.tankIds.map((_id, index) => [massKg(run, index), lostKg(run, index)])).toEqual(whole.levels);
      }),
      { numRuns: 400 },
    ));
});
