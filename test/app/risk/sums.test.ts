/** Same bytes however a run is cut and whoever runs its parts; bands against sorting; pairing; standard errors that hold. */
import { describe, expect, test } from "vitest";
import { differenceOf, driverOf, droppedOf, joinTables } from "../../../app/risk/paired.ts";
import { createReplicator, drawFor, replicate } from "../../../app/risk/replication.ts";
import { riskModel } from "../../../app/risk/risk-model.ts";
import type { RiskJob } from "../../../app/risk/risk-job.ts";
import { createKernel, outcomesOf, runBlocks, tallyFor } from "../../../app/risk/run-blocks.ts";
import { BLOCK } from "../../../app/risk/stream.ts";
import { addTally } from "../../../app/risk/tally.ts";
import { campaign } from "../../bench/reference-campaign.ts";
import { day, flight, lossPeriod, smallPlan, sortie, tank } from "../forecast/small-plan.ts";
import { answerFor, bytesOf, jobOf, tallyOf, withInputs } from "./kernel-plan.ts";

const every = { kind: "every" } as const;

/** A campaign with everything on. */
const busyPlan = () => {
  const plan = campaign({ flights: 24, sorties: 6, rateChanges: 4, years: 2 });
  return withInputs({ ...plan, planCase: { ...plan.planCase, shortPolicy: "wait" } }, [
    { quantity: "flight slip", of: every, law: { kind: "exponential", noneShare: 0.4, meanDays: 12 } },
    { quantity: "flight loss", of: every, law: { kind: "trials", successes: 29, trials: 30 } },
    { quantity: "grounding", of: every, law: { kind: "log-normal", noneShare: 0, meanDays: 90, sigma: 0.5 } },
    { quantity: "transfer loss", of: every, law: { kind: "log-normal factor", sigma: 0.3 } },
    {
      quantity: "sortie slip",
      of: every,
      law: { kind: "triangular", noneShare: 0.5, lowDays: 0, modeDays: 2, highDays: 9 },
    },
    { quantity: "sortie demand", of: every, law: { kind: "log-normal factor", sigma: 0.02 } },
    { quantity: "boil-off", of: every, law: { kind: "log-normal factor", sigma: 0.3 } },
    {
      quantity: "cooler",
      of: every,
      law: { kind: "failures", meanBetweenDays: 200, meanRepairDays: 20, kPerDay: 0.01, cKgPerDay: 0 },
    },
    { quantity: "opening level", of: every, law: { kind: "share of maximum fill", sigma: 0.02 } },
  ]);
};
const busyJob = (over: Partial<RiskJob> = {}): RiskJob => {
  const plan = busyPlan();
  const bandsAt = [30, 90, 200, 400, 600].map((days) => plan.asOfAt + days * 86_400_000);
  return { ...jobOf(plan, { seed: 42, bandsAt }), ...over };
};

const BLOCKS = 28;
const whole = bytesOf(tallyOf(busyJob(), BLOCKS));

describe("the same bytes", () => {
  test.each([2, 7])("from %i parts that take blocks in turn, added backwards", (parts) => {
    const sum = tallyFor(createKernel(busyJob()), 0);
    const tallies = Array.from({ length: parts }, (_, part) => {
      const kernel = createKernel(busyJob());
      const tally = tallyFor(kernel, 0);
      for (let block = part; block < BLOCKS; block += parts) runBlocks(kernel, tally, block, block + 1);
      return tally;
    });
    for (const tally of tallies.toReversed()) addTally(sum, tally);
    expect(bytesOf(sum)).toBe(whole);
  });

  test("when it was stopped and gone on with, by another kernel", () => {
    const first = createKernel(busyJob());
    const sum = tallyFor(first, 0);
    let asked = 0;
    const stoppedAt = runBlocks(first, sum, 0, BLOCKS, () => (asked += 1) > 9);
    expect(stoppedAt).toBe(9);
    const second = createKernel(busyJob());
    const rest = tallyFor(second, 0);
    runBlocks(second, rest, stoppedAt, BLOCKS);
    addTally(sum, rest);
    expect(bytesOf(sum)).toBe(whole);
  });

  test("with the rows of the plan in another order, and not with another seed", () => {
    const job = busyJob();
    const turned = {
      ...job,
      plan: {
        ...job.plan,
        flights: job.plan.flights.toReversed(),
        riskInputs: job.plan.riskInputs.toReversed(),
        tanks: job.plan.tanks.toReversed(),
      },
    };
    expect(bytesOf(tallyOf(turned, 3))).toBe(bytesOf(tallyOf(job, 3)));
    expect(bytesOf(tallyOf(busyJob({ seed: 43 }), 3))).not.toBe(bytesOf(tallyOf(job, 3)));
  });
});

test("a dropped flight changes no other flight's draws", () => {
  const plan = busyPlan();
  const [gone, ...rest] = plan.flights.map(({ id }) => id);
  const slipsOf = (job: RiskJob) => {
    const replicator = createReplicator(riskModel(job));
    drawFor(replicator, 3);
    const { flightIds } = replicator.model.plan;
    return new Map(
      flightIds.map((id, f) => [id, [...replicator.draws.flightSlipMs.subarray(f * BLOCK, (f + 1) * BLOCK)]]),
    );
  };
  const all = slipsOf(jobOf(plan));
  const without = slipsOf(jobOf({ ...plan, flights: plan.flights.filter(({ id }) => id !== gone) }));
  const dropped = slipsOf(jobOf(plan, { variant: { droppedFlightIds: [gone ?? ""] } }));
  for (const id of rest) {
    expect(without.get(id)).toEqual(all.get(id));
    expect(dropped.get(id)).toEqual(all.get(id));
  }
});

test("bands from histograms are those of sorting, within a bin", () => {
  const job = busyJob();
  const replicator = createReplicator(riskModel(job));
  const instants = job.bandsAt.length;
  const levels: number[][] = Array.from({ length: replicator.bandKg.length }, () => []);
  const blocks = 32;
  for (let block = 0; block < blocks; block += 1) {
    drawFor(replicator, block);
    for (let r = 0; r < BLOCK; r += 1) {
      replicate(replicator, block, r, true);
      replicator.bandKg.forEach((kg, place) => levels[place]?.push(kg));
    }
  }
  const { bands } = answerFor(job, blocks);
  const maxima = new Map(job.plan.tanks.map((row) => [`${row.ownerId}/${row.propellantId}`, row.maximumFillKg]));
  const n = blocks * BLOCK;
  for (const [pool, band] of bands.entries()) {
    const bin = (maxima.get(`${band.depotId}/${band.propellantId}`) ?? 0) / 1024;
    for (let instant = 0; instant < instants; instant += 1) {
      const sorted = levels[pool * instants + instant]?.toSorted((a, b) => a - b) ?? [];
      for (const [p, curve] of [
        [0.05, band.p5],
        [0.1, band.p10],
        [0.5, band.p50],
        [0.9, band.p90],
        [0.95, band.p95],
      ] as const)
        expect(Math.abs((curve[instant] ?? 0) - (sorted[Math.ceil(n * p) - 1] ?? 0))).toBeLessThanOrEqual(bin * 1.0001);
    }
  }
});

/** Two sorties that hang on a flight each, of two propellants: nothing of one touches the other. */
const twoSorties = () => {
  const plan = smallPlan({
    tanks: [tank("a"), tank("b", { propellantId: "lh2" })],
    flights: [
      flight("fa", 5, 35, 1000, { loads: [{ propellantId: "lox", loadedKg: 1000 }] }),
      flight("fb", 5, 45, 1000, { loads: [{ propellantId: "lh2", loadedKg: 1000 }], craftId: "hull-b" }),
    ],
    sorties: [
      sortie("sa", 50, 1000),
      sortie("sb", 50, 0, {
        landerId: "heron-2",
        demand: { kind: "stated", lines: [{ propellantId: "lh2", loadKg: 1000, returnKg: 0 }] },
      }),
    ],
    landers: ["heron-1", "heron-2"],
  });
  const hull = { id: "hull-b", classId: "packhorse", name: "Hull b", engineChanges: [], note: "" };
  const carriesBoth = plan.craftClasses.map((row) => ({
    ...row,
    propellants: ["lox", "lh2"].map((propellantId) => ({ ...row.propellants[0]!, propellantId })),
  }));
  return withInputs({ ...plan, craft: [...plan.craft, hull], craftClasses: carriesBoth }, [
    {
      quantity: "flight slip",
      of: { kind: "flight", flightId: "fa" },
      law: { kind: "exponential", noneShare: 0, meanDays: 20 },
    },
    {
      quantity: "flight slip",
      of: { kind: "flight", flightId: "fb" },
      law: { kind: "exponential", noneShare: 0, meanDays: 5 },
    },
  ]);
};

describe("what it hangs on, where it splits", () => {
  const plan = twoSorties();
  // 15 and 5 days of room: P(A) = 1 − e^(−15/20), P(B) = 1 − e^(−5/5); medians 13.9 and 3.5 days come in time.
  const pA = 1 - Math.exp(-0.75);
  const pB = 1 - Math.exp(-1);
  const blocks = 160;
  const table = (variant: RiskJob["variant"]) => {
    const kernel = createKernel(jobOf(plan, { variant }));
    const keys = kernel.replicator.model.plan.sortieIds;
    return joinTables(keys, [outcomesOf(kernel, 0, 64)!, outcomesOf(kernel, 64, blocks)!]);
  };
  const base = table({});
  const idOf = (flightId: string) =>
    plan.riskInputs.find(
      ({ uncertainty: { of, quantity } }) =>
        quantity === "flight slip" && of.kind === "flight" && of.flightId === flightId,
    )!.id;

  test.each([
    ["fa", pB * (1 - pA), 1 - pA],
    ["fb", pA * (1 - pB), 1 - pB],
  ])("freezing the slip of %s", (flightId, expected, expectedFlown) => {
    const id = idOf(flightId);
    const driver = driverOf(id, base, table({ frozenInputIds: [id] }), table({ certainInputIds: [id] }));
    for (const found of [driver.frozen, driver.certain]) {
      expect(Math.abs(found.value - expected)).toBeLessThan(4 * found.standardError);
      // Paired: only the replications that change count, p(1 − p) of them at most.
      expect(found.standardError).toBeLessThanOrEqual(Math.sqrt((expected * (1 - expected)) / (blocks * BLOCK)) * 1.05);
    }
    expect(Math.abs(driver.flownFrozen.value - expectedFlown)).toBeLessThan(4 * driver.flownFrozen.standardError);
  });

  test("the variance of the number flown splits: with A frozen, that of B is left", () => {
    const variance = ({ value, standardError }: { value: number; standardError: number }, n: number) => {
      expect(value).toBeGreaterThan(0);
      return standardError ** 2 * n;
    };
    const n = blocks * BLOCK;
    const all = variance(answerFor(jobOf(plan), blocks).sortiesFlown, n);
    const left = variance(
      answerFor(jobOf(plan, { variant: { frozenInputIds: [idOf("fa")] } }), blocks).sortiesFlown,
      n,
    );
    // Errors of a variance of n draws: relative √(2/n) at most for these; 4 of them.
    expect(Math.abs(all / (pA * (1 - pA) + pB * (1 - pB)) - 1)).toBeLessThan(4 * Math.sqrt(2 / n));
    expect(Math.abs(left / (pB * (1 - pB)) - 1)).toBeLessThan(4 * Math.sqrt(2 / n));
  });

  test("without a flight its sortie never flies, and the other is as it was", () => {
    const dropped = droppedOf(["fa"], base, table({ droppedFlightIds: ["fa"] }));
    expect(dropped.allFly.value).toBe(0);
    expect(Math.abs(dropped.bySortie[0]!.value + pA)).toBeLessThan(4 * dropped.bySortie[0]!.standardError);
    expect(dropped.bySortie[1]!.value).toBe(0);
  });

  test("a plan against itself differs by nothing, against another seed by noise", () => {
    expect(differenceOf(["a", "b"], base, base).allFly.value).toBe(0);
    const other = createKernel(jobOf(plan, { seed: 2 }));
    const noise = differenceOf(["a", "b"], base, joinTables(base.keys, [outcomesOf(other, 0, blocks)!]));
    expect(Math.abs(noise.allFly.value)).toBeLessThan(4 * noise.allFly.standardError);
    expect(noise.allFly.value).not.toBe(0);
  });
});

test("what the bad replications have in common: the flight on which the sortie hangs, not the other", () => {
  const [sa] = answerFor(jobOf(twoSorties()), 64).sorties;
  const [first, ...others] = sa?.common ?? [];
  // It does not fly when the slip is over 15 days. Of the named limits, 20 days tells most: met in
  // e^(−20/20) of all, in e^(−5/20) of the bad ones.
  expect(first?.what).toEqual({ kind: "flight late", flightId: "fa", moreThanDays: 20 });
  expect(Math.abs(first!.ofBad.value - Math.exp(-0.25))).toBeLessThan(4 * first!.ofBad.standardError);
  expect(Math.abs(first!.ofAll.value - Math.exp(-1))).toBeLessThan(4 * first!.ofAll.standardError);
  expect(others.map(({ what }) => what)).toEqual([]);
});

test("more at the depot that would lift the probability: the quantile of what is missing", () => {
  // Needed 1,000 kg; there are 900 e^(0.2 z): missing with z < ln(10/9)/0.2; 90 % are supplied with 1000 − 900 e^(0.2·z10) more.
  const plan = withInputs(
    smallPlan({
      opening: { a: 2000 },
      lossPeriods: [lossPeriod("p", "a", 0.01, 0)],
      sorties: [sortie("s", 80, 1000)],
    }),
    [{ quantity: "boil-off", of: every, law: { kind: "log-normal factor", sigma: 0.3 } }],
  );
  const [s] = answerFor(jobOf(plan), 640).sorties;
  const missing = (z: number) => 1000 - 2000 * Math.exp(-0.8 * Math.exp(0.3 * z));
  const extra = s?.extraKg[0];
  for (const [found, z] of [
    [extra?.for90, 1.2815516],
    [extra?.for95, 1.6448536],
  ] as const) {
    expect(found!.low - 2).toBeLessThan(missing(z));
    expect(found!.high + 2).toBeGreaterThan(missing(z));
    expect(Math.abs(found!.value - missing(z))).toBeLessThan(12);
  }
});

test("standard errors hold: in 95 ± 1.5 % of 2,000 seeds the 95 % interval holds the truth", () => {
  const plan = withInputs(
    smallPlan({
      flights: [flight("f", 5, 40, 1000)],
      sorties: [sortie("s", 50, 1000)],
      horizonDay: 60,
      tanks: [tank("a", { maximumFillKg: 50_000 }), tank("b", { propellantId: "lh2" })],
      opening: { b: 10_000 },
      lossPeriods: [lossPeriod("p", "b", 0.001, 0)],
    }),
    [
      { quantity: "flight slip", of: every, law: { kind: "exponential", noneShare: 0, meanDays: 20 } },
      { quantity: "boil-off", of: every, law: { kind: "log-normal factor", sigma: 0.2 } },
    ],
  );
  const truth = 1 - Math.exp(-0.5);
  // E[1 − e^(−0.06 f)] of a log-normal f, by integration over 4,001 points of ±8 σ.
  let mean = 0;
  for (let i = -2000; i <= 2000; i += 1) {
    const z = i / 250;
    mean += (Math.exp(-z * z * 0.5) / Math.sqrt(2 * Math.PI)) * (1 - Math.exp(-0.06 * Math.exp(0.2 * z))) * (1 / 250);
  }
  let held = 0;
  let heldMass = 0;
  const seeds = 2000;
  for (let seed = 0; seed < seeds; seed += 1) {
    const { allFly, pools } = answerFor(jobOf(plan, { seed }), 8);
    if (Math.abs(allFly.value - truth) <= 1.96 * allFly.standardError) held += 1;
    const boilOff = pools.find(({ propellantId }) => propellantId === "lh2")!.boilOffKg;
    if (Math.abs(boilOff.value - 10_000 * mean) <= 1.96 * boilOff.standardError) heldMass += 1;
  }
  expect(Math.abs(held / seeds - 0.95)).toBeLessThan(0.015);
  expect(Math.abs(heldMass / seeds - 0.95)).toBeLessThan(0.015);
});

test("days of a plan in bands are those asked for", () => {
  const [band] = answerFor(jobOf(withInputs(smallPlan({ opening: { a: 7 } }), []), { bandsAt: [day(3)] }), 1).bands;
  expect(band?.at).toEqual([day(3)]);
});
