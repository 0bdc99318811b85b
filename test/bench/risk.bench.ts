/**
 * Replications of the reference campaign, as they ship (bundled), beside the yardstick in the same process: how many
 * times its time a replication takes. The yardstick's own time is that of the machine.
 */
import type { Uncertainty } from "../../app/entity/risk-input.ts";
import type { RiskJob } from "../../app/risk/risk-job.ts";
import { withInputs } from "../app/risk/kernel-plan.ts";
import type { Bench, BenchFigure } from "./bench.ts";
import { dailyStep, dockedLosses, sheetOf } from "./daily-step.ts";
import { type Bundled, drawn, everything, riskCampaign, withBundle, yardstickOf } from "./risk-bundle.ts";

const cpuMs = (act: () => void): number => {
  const from = process.cpuUsage();
  act();
  // Not the system's: that is the memory of whoever else is at work.
  return process.cpuUsage(from).user / 1000;
};

const BLOCKS = 64;
const ROUNDS = 9;
/** Runs of the daily loop in one timing: it is slow. */
const DAILY = 20;

/** µs a replication of each, taken in turns so that all see the same machine; the round that was disturbed least counts. */
const inTurns = (runs: readonly (() => void)[], replications: number): readonly number[] => {
  for (const run of runs) run();
  const times: number[][] = runs.map(() => []);
  for (let round = 0; round < ROUNDS; round += 1)
    for (const [place, run] of runs.entries()) times[place]?.push((cpuMs(run) * 1000) / replications);
  return times.map((of) => Math.min(...of));
};

const measure = (bundle: Bundled): readonly BenchFigure[] => {
  const { compile, createEngine, createKernel, runBlocks, tallyFor, bandInstants } = bundle;
  const plan = riskCampaign();
  const jobOf = (stated: readonly Uncertainty[], bandsAt: readonly number[]): RiskJob => ({
    plan: withInputs(plan, stated),
    readings: [],
    seed: 1,
    bandsAt,
    variant: {},
  });
  const compiled = compile(plan);
  const engine = createEngine(compiled);
  engine.go();
  const yardstick = yardstickOf(bundle, plan);
  const sheet = sheetOf(plan, compiled, engine.run.lineDeliverableKg);
  const losses = dockedLosses(plan);
  const kernel = createKernel(jobOf(drawn, []));
  const busy = createKernel(jobOf(everything, []));
  const banded = createKernel(jobOf(drawn, bandInstants(plan)));
  // Blocks beyond the banded ones: what most of a long run is.
  const plainFrom = 320;
  const tallies = { plain: tallyFor(kernel, plainFrom), busy: tallyFor(busy, plainFrom), banded: tallyFor(banded, 0) };
  const n = BLOCKS * 64;
  const [yard = 0, plain = 0, all = 0, bands = 0, once = 0] = inTurns(
    [
      () => void yardstick.run(n),
      () => void runBlocks(kernel, tallies.plain, plainFrom, plainFrom + BLOCKS),
      () => void runBlocks(busy, tallies.busy, plainFrom, plainFrom + BLOCKS),
      () => void runBlocks(banded, tallies.banded, 0, BLOCKS),
      () => {
        for (let r = 0; r < n; r += 1) engine.go();
      },
    ],
    n,
  );
  const figure = (name: string, value: number, limit?: number): BenchFigure => ({
    name,
    value,
    unit: "µs",
    ratioTo: "risk yardstick, one replication",
    ...(limit === undefined ? {} : { limit: limit * yard }),
    note: `${Math.round(1e6 / value)} a second`,
  });
  const [daily = 0] = inTurns(
    [
      () => {
        for (let r = 0; r < DAILY; r += 1) dailyStep(sheet, losses);
      },
    ],
    DAILY,
  );
  globalThis.gc?.();
  const before = process.memoryUsage.rss();
  const million = createKernel(jobOf(drawn, bandInstants(plan)));
  const counted = tallyFor(million, 0);
  // The first 20,480 with bands, as in any run; the others are counted alike, only fewer of them.
  runBlocks(million, counted, 0, 320);
  runBlocks(million, counted, 320, 15_625);
  return [
    { name: "risk yardstick, one replication", value: yard, unit: "µs" },
    figure("a replication: slips, losses, factors", plain, 2.6),
    figure("a replication with everything on", all, 3.3),
    figure("a replication with bands", bands, 5),
    figure("one forecast, nothing drawn", once, 2),
    {
      name: "a replication, in runs of a daily-step loop over plain objects that draws nothing",
      value: plain / daily,
      unit: "×",
      limit: 1 / 60,
      note: `that loop takes ${daily.toFixed(0)} µs: ${(daily / once).toFixed(0)} times as long`,
    },
    {
      name: "memory that a million replications take beyond what was there",
      value: Math.max(0, process.memoryUsage.rss() - before) / 1e6,
      unit: "MB",
      limit: 250,
    },
  ];
};

export const bench: Bench = { name: "risk", run: () => withBundle(measure) };
