/** The risk against answers that are known without it: the binomial, closed forms of one tank, an alternating cooler. */
import { describe, expect, test } from "vitest";
import { compile } from "../../../app/forecast/compile.ts";
import { createEngine } from "../../../app/forecast/propagate.ts";
import { lostKg, massKg } from "../../../app/forecast/read-run.ts";
import type { Uncertainty } from "../../../app/entity/risk-input.ts";
import { createReplicator, drawFor, replicate } from "../../../app/risk/replication.ts";
import { riskModel } from "../../../app/risk/risk-model.ts";
import { BLOCK } from "../../../app/risk/stream.ts";
import { referenceCampaign } from "../../bench/reference-campaign.ts";
import { START, carries, day, flight, lossPeriod, smallPlan, sortie, tank } from "../forecast/small-plan.ts";
import { answerFor, jobOf, withInputs } from "./kernel-plan.ts";

const every = { kind: "every" } as const;

/** n flights of 1 t each, every one a hull of its own, and a sortie that takes the mass of k of them. */
const countingPlan = (n: number, k: number) => {
  const plan = smallPlan({
    flights: Array.from({ length: n }, (_, i) => flight(`f${i}`, 5, 10, 1000, { craftId: `hull-${i}` })),
    sorties: [sortie("s", 50, 1000 * k)],
  });
  const hulls = Array.from({ length: n }, (_, i) => ({
    id: `hull-${i}`,
    classId: "packhorse",
    name: `Hull ${i}`,
    engineChanges: [],
    note: "",
  }));
  return { ...plan, craft: [...plan.craft, ...hulls] };
};

describe("losses only: k of n", () => {
  // Binomial sums, recomputed: 10 of 10 at 0.95; 10 of 12 at 0.95; 15 of 15 at 0.98.
  test.each([
    [10, 10, 0.05, 0.5987369392, 15_625],
    [12, 10, 0.05, 0.980431738, 1600],
    [15, 15, 0.02, 0.7385691026, 1600],
  ])("%i flights of which %i are needed, each lost with %d", (n, k, probability, expected, blocks) => {
    const plan = withInputs(countingPlan(n, k), [
      { quantity: "flight loss", of: every, law: { kind: "probability", probability } },
    ]);
    const { allFly, replications } = answerFor(jobOf(plan), blocks);
    expect(replications).toBe(64 * blocks);
    const error = Math.sqrt((expected * (1 - expected)) / replications);
    expect(Math.abs(allFly.value - expected)).toBeLessThan(4 * error);
    expect(Math.abs(allFly.standardError / error - 1)).toBeLessThan(0.05);
  });

  test("from trials: the loss is one draw for all flights, so they are lost together more than apart", () => {
    // P(all 5 of 5 arrive) = E[p^5], p ~ Beta(15, 2) after 14 of 15: Π (14 + 1 + i)/(17 + i), i = 0…4.
    const plan = withInputs(countingPlan(5, 5), [
      { quantity: "flight loss", of: every, law: { kind: "trials", successes: 14, trials: 15 } },
    ]);
    const expected = [0, 1, 2, 3, 4].reduce((product, i) => (product * (15 + i)) / (17 + i), 1);
    const { allFly, replications } = answerFor(jobOf(plan), 1600);
    expect(Math.abs(allFly.value - expected)).toBeLessThan(4 * Math.sqrt((expected * (1 - expected)) / replications));
    // Apart from each other they would all arrive with (15/17)^5 = 0.535.
    expect(allFly.value).toBeGreaterThan((15 / 17) ** 5 + 0.02);
  });
});

test("one tank, one flight with an exponential slip: the sortie flies when the flight comes in time", () => {
  // Planned 10 days before the loading: P(slip ≤ 10) = 1 − e^(−10/20).
  const plan = withInputs(smallPlan({ flights: [flight("f", 5, 40, 1000)], sorties: [sortie("s", 50, 1000)] }), [
    { quantity: "flight slip", of: every, law: { kind: "exponential", noneShare: 0, meanDays: 20 } },
  ]);
  const { allFlyWhenPlanned, replications } = answerFor(jobOf(plan), 1600);
  const expected = 1 - Math.exp(-0.5);
  expect(Math.abs(allFlyWhenPlanned.value - expected)).toBeLessThan(
    4 * Math.sqrt((expected * (1 - expected)) / replications),
  );
});

test("a sortie that waits for that flight: its delay is the slip beyond the ten days, exponential again", () => {
  const plan = withInputs(
    smallPlan({
      flights: [flight("f", 5, 40, 1000)],
      sorties: [sortie("s", 50, 1000)],
      shortPolicy: "wait",
      holdLimitDays: 300,
      horizonDay: 3000,
    }),
    [{ quantity: "flight slip", of: every, law: { kind: "exponential", noneShare: 0, meanDays: 20 } }],
  );
  const [s] = answerFor(jobOf(plan), 1600).sorties;
  // Of those that fly: delay 0 with 1 − e^(−1/2), else exponential: quantile p is −20 ln(1 − p) − 10.
  for (const [p, found] of [
    [0.5, s?.delayDays?.p50],
    [0.8, s?.delayDays?.p80],
    [0.9, s?.delayDays?.p90],
  ] as const) {
    const expected = -20 * Math.log(1 - p) - 10;
    // Intervals are 95 %; doubled they hold 4 standard errors. Delays are counted by the hour.
    const half = (found!.high - found!.low) / 2;
    expect(Math.abs(found!.value - expected)).toBeLessThan(2.1 * half + 1 / 24);
  }
  const within30 = s?.flownWithin.find(({ days }) => days === 30)?.share.value ?? 0;
  expect(Math.abs(within30 - (1 - Math.exp(-2)))).toBeLessThan(4 * Math.sqrt((0.135 * 0.865) / 102_400));
});

test("one tank whose boil-off factor is log-normal: the level after 100 days has the closed form's quantiles", () => {
  // m(t) = m0 e^(−k f t), k = 0.001, t = 100: the level's p-quantile is at the factor's (1 − p)-quantile.
  const plan = withInputs(
    smallPlan({
      opening: { a: 80_000 },
      lossPeriods: [lossPeriod("p", "a", 0.001, 0)],
      sorties: [sortie("s", 200, 1)],
    }),
    [{ quantity: "boil-off", of: every, law: { kind: "log-normal factor", sigma: 0.5 } }],
  );
  const { bands } = answerFor(jobOf(plan, { bandsAt: [day(100)] }), 320);
  const level = (z: number) => 80_000 * Math.exp(-0.1 * Math.exp(0.5 * z));
  const [band] = bands;
  // Standard error of a quantile: √(p(1−p)/n)/density; 4 of them at 20,480 are under 190 kg at P5, 90 at the median. One bin is 98 kg.
  expect(Math.abs((band?.p50[0] ?? 0) - level(0))).toBeLessThan(120);
  expect(Math.abs((band?.p10[0] ?? 0) - level(1.2815516))).toBeLessThan(220);
  expect(Math.abs((band?.p90[0] ?? 0) - level(-1.2815516))).toBeLessThan(120);
  expect(Math.abs((band?.p5[0] ?? 0) - level(1.6448536))).toBeLessThan(330);
});

test("one cooler: the share of the time down is that of the two-state Markov process that starts running", () => {
  // Down at rate λ, up at rate μ: P(down at t) = λ/(λ+μ) (1 − e^(−(λ+μ)t)); its integral over T is the expected time down.
  const meanBetween = 60;
  const meanRepair = 15;
  const days = 365;
  const plan = withInputs(smallPlan({ opening: { a: 90_000 }, sorties: [sortie("s", 360, 1)] }), [
    {
      quantity: "cooler",
      of: every,
      law: { kind: "failures", meanBetweenDays: meanBetween, meanRepairDays: meanRepair, kPerDay: 0, cKgPerDay: 10 },
    },
  ]);
  const answer = answerFor(jobOf(plan), 640);
  const lambda = 1 / meanBetween;
  const rate = lambda + 1 / meanRepair;
  const expectedDays = (lambda / rate) * (days - (1 - Math.exp(-rate * days)) / rate);
  const boilOff = answer.pools[0]?.boilOffKg;
  expect(Math.abs((boilOff?.value ?? 0) - 10 * expectedDays)).toBeLessThan(4 * (boilOff?.standardError ?? 0));
  expect(boilOff?.standardError).toBeLessThan(0.02 * 10 * expectedDays);
});

test("a grounding holds the class: two flights at once lost together or not at all is no matter, one after is held", () => {
  // f0 is lost for sure and departs on day 5; the class stands 30 days to the day; f1 was to depart on day 20.
  const base = countingPlan(2, 1);
  const plan = withInputs(
    {
      ...base,
      flights: [flight("f0", 5, 10, 1000, { craftId: "hull-0" }), flight("f1", 20, 25, 1000, { craftId: "hull-1" })],
      sorties: [sortie("s", 39, 1000)],
    },
    [
      { quantity: "flight loss", of: { kind: "flight", flightId: "f0" }, law: { kind: "probability", probability: 1 } },
      {
        quantity: "grounding",
        of: every,
        law: { kind: "triangular", noneShare: 0, lowDays: 30, modeDays: 30, highDays: 30 },
      },
    ],
  );
  // Leaves on day 35, arrives on day 40: too late for day 39, in time for day 40.
  expect(answerFor(jobOf(plan), 1).allFly.value).toBe(0);
  expect(answerFor(jobOf({ ...plan, sorties: [sortie("s", 40, 1000)] }), 1).allFly.value).toBe(1);
  // Dropping the lost flight drops its grounding.
  const dropped = jobOf(plan, { variant: { droppedFlightIds: ["f0"] } });
  expect(answerFor(dropped, 1).allFly.value).toBe(1);
});

test("a lost hull does not fly again, and a late one makes its next flight late by what the turnaround does not absorb", () => {
  const two = { flights: [flight("f0", 5, 10, 1000), flight("f1", 40, 45, 1000)] };
  const lost: Uncertainty = {
    quantity: "flight loss",
    of: { kind: "flight", flightId: "f0" },
    law: { kind: "probability", probability: 1 },
  };
  const gone = withInputs(smallPlan({ ...two, sorties: [sortie("s", 100, 1000)] }), [lost]);
  expect(answerFor(jobOf(gone), 1).allFly.value).toBe(0);
  // f0 arrives on day 10, its berth ends on day 12, f1 departs on day 40: 28 days of room. Late by 30 days: f1 is 2 late.
  const late: Uncertainty = {
    quantity: "flight slip",
    of: { kind: "flight", flightId: "f0" },
    law: { kind: "observed", days: [30] },
  };
  const needsBoth = (loadDay: number) =>
    withInputs(smallPlan({ ...two, sorties: [sortie("s", loadDay, 2000)] }), [late]);
  expect(answerFor(jobOf(needsBoth(46)), 1).allFly.value).toBe(0);
  expect(answerFor(jobOf(needsBoth(47)), 1).allFly.value).toBe(1);
});

test("a slipped sortie goes to the next window of its depot", () => {
  const plan = withInputs(
    {
      ...smallPlan({ opening: { a: 5000 }, sorties: [sortie("s", 20, 1000)] }),
      depots: [
        {
          id: "tarn",
          name: "Tarn",
          orbit: "",
          windowPeriodDays: 10,
          windowReferenceAt: START,
          ports: 2,
          note: "",
          windowList: null,
          lunarOrbit: null,
        },
      ],
    },
    [{ quantity: "sortie slip", of: every, law: { kind: "observed", days: [3] } }],
  );
  const [s] = answerFor(jobOf(plan), 1).sorties;
  expect(s?.fliesWhenPlanned.value).toBe(1);
  expect(s?.delayDays?.p50.value).toBeCloseTo(10, 1);
});

describe("all spreads zero is the deterministic forecast to the bit", () => {
  test.each(["stand down", "wait"] as const)("the reference campaign, a short sortie %s", (shortPolicy) => {
    const reference = referenceCampaign();
    const plan = withInputs({ ...reference, planCase: { ...reference.planCase, shortPolicy } }, []);
    const forecast = createEngine(compile(plan)).go();
    const replicator = createReplicator(riskModel(jobOf(plan)));
    for (const block of [0, 5]) {
      drawFor(replicator, block);
      for (let r = 0; r < BLOCK; r += 21) {
        replicate(replicator, block, r, false);
        const { run } = replicator;
        expect([...run.sortieLoadedAt]).toEqual([...forecast.sortieLoadedAt]);
        expect([...run.sortieOutcome]).toEqual([...forecast.sortieOutcome]);
        run.plan.tankIds.forEach((_, tank) => {
          expect(massKg(run, tank)).toBe(massKg(forecast, tank));
          expect(lostKg(run, tank)).toBe(lostKg(forecast, tank));
        });
      }
    }
  });

  test("bands are the curve itself", () => {
    const plan = withInputs(
      smallPlan({
        opening: { a: 50_000 },
        lossPeriods: [lossPeriod("p", "a", 0.002, 3)],
        flights: [flight("f", 5, 40, 9000)],
        sorties: [sortie("s", 90, 20_000)],
        tanker: [carries({ chilldownKg: 10, lossFraction: 0.01 })],
      }),
      [],
    );
    const instants = [day(0), day(40), day(89), day(90), day(200)];
    const replicator = createReplicator(riskModel(jobOf(plan, { bandsAt: instants })));
    drawFor(replicator, 0);
    replicate(replicator, 0, 0, true);
    const engine = createEngine(compile(plan));
    const ends = instants.map((at) => {
      const short = { ...plan, horizonAt: at };
      return at === START ? 50_000 : massKg(createEngine(compile(short)).go(), 0);
    });
    expect([...replicator.bandKg]).toEqual(ends);
    expect(massKg(replicator.run, 0)).toBe(massKg(engine.go(), 0));
  });
});

test("a tank's level is drawn about its record and kept between empty and full", () => {
  const plan = withInputs(
    smallPlan({
      opening: { a: 1000 },
      tanks: [tank("a", { maximumFillKg: 10_000 })],
      sorties: [sortie("s", 10, 1000)],
    }),
    [{ quantity: "opening level", of: every, law: { kind: "mass", sigmaKg: 200 } }],
  );
  const { allFly, replications } = answerFor(jobOf(plan), 320);
  // Exactly the record is needed: half of the draws are above it.
  expect(Math.abs(allFly.value - 0.5)).toBeLessThan(4 * Math.sqrt(0.25 / replications));
});
