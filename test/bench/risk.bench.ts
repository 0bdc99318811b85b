/**
 * Replications of the reference campaign, as they ship (bundled), beside the yardstick in the same process: how many
 * times its time a replication takes. The yardstick's own time is that of the machine.
 */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build } from "vite";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { Uncertainty } from "../../app/entity/risk-input.ts";
import type { RiskJob } from "../../app/risk/risk-job.ts";
import { withInputs } from "../app/risk/kernel-plan.ts";
import { type Bench, type BenchFigure, median } from "./bench.ts";
import { referenceCampaign } from "./reference-campaign.ts";

type Bundled = typeof import("./risk-in-bundle.ts");

const every = { kind: "every" } as const;
const DAY_MS = 86_400_000;

const drawn: readonly Uncertainty[] = [
  { quantity: "flight slip", of: every, law: { kind: "exponential", noneShare: 0.4, meanDays: 12 } },
  { quantity: "flight loss", of: every, law: { kind: "probability", probability: 0.03 } },
  { quantity: "boil-off", of: every, law: { kind: "log-normal factor", sigma: 0.2 } },
];
const everything: readonly Uncertainty[] = [
  ...drawn,
  { quantity: "grounding", of: every, law: { kind: "exponential", noneShare: 0, meanDays: 30 } },
  { quantity: "sortie slip", of: every, law: { kind: "exponential", noneShare: 0.5, meanDays: 5 } },
  { quantity: "sortie demand", of: every, law: { kind: "log-normal factor", sigma: 0.02 } },
  {
    quantity: "cooler",
    of: every,
    law: { kind: "failures", meanBetweenDays: 540, meanRepairDays: 20, kPerDay: 0.005, cKgPerDay: 0 },
  },
];

/** Bundles the kernel with the yardstick into one file and loads it. */
const bundled = async (): Promise<Bundled> => {
  const folder = mkdtempSync(join(tmpdir(), "coldstock-risk-bench-"));
  try {
    await build({
      configFile: false,
      logLevel: "silent",
      ssr: { noExternal: true },
      build: {
        ssr: fileURLToPath(new URL("./risk-in-bundle.ts", import.meta.url)),
        outDir: folder,
        target: "node24",
        minify: false,
        rollupOptions: { output: { format: "es", entryFileNames: "bundle.mjs" } },
      },
    });
    return (await import(pathToFileURL(join(folder, "bundle.mjs")).href)) as Bundled;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};

const cpuMs = (act: () => void): number => {
  const from = process.cpuUsage();
  act();
  const { user, system } = process.cpuUsage(from);
  return (user + system) / 1000;
};

const BLOCKS = 64;
const ROUNDS = 9;

/** µs a replication of each, taken in turns so that all see the same machine. */
const inTurns = (runs: readonly (() => void)[], replications: number): readonly number[] => {
  for (const run of runs) run();
  const times: number[][] = runs.map(() => []);
  for (let round = 0; round < ROUNDS; round += 1)
    for (const [place, run] of runs.entries()) times[place]?.push((cpuMs(run) * 1000) / replications);
  return times.map(median);
};

/** Hulls of their own, so that a loss costs one flight and a grounding, as in the prototype. */
const withHulls = (plan: PlanSnapshot): PlanSnapshot => {
  const hulls = plan.flights.map((row) => ({
    ...(plan.craft.find(({ id }) => id === row.craftId) ?? plan.craft[0]!),
    id: `hull-${row.id}`,
    name: row.name,
  }));
  return {
    ...plan,
    craft: [...plan.craft, ...hulls],
    flights: plan.flights.map((row) => ({ ...row, craftId: `hull-${row.id}` })),
  };
};

export const bench: Bench = {
  name: "risk",
  run: async () => {
    const { compile, createEngine, createKernel, createYardstick, emptyTally, runBlocks, tallyFor, bandInstants } =
      await bundled();
    const plan = withHulls(referenceCampaign());
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
    const yardstick = createYardstick(compiled, engine.run.lineDeliverableKg, {
      noneShare: 0.4,
      meanSlipMs: 12 * DAY_MS,
      lossShare: 0.03,
      factorSigma: 0.2,
    });
    const kernel = createKernel(jobOf(drawn, []));
    const busy = createKernel(jobOf(everything, []));
    const banded = createKernel(jobOf(drawn, bandInstants(plan)));
    // Blocks beyond the banded ones: what most of a long run is.
    const plainFrom = 320;
    const tallies = { plain: tallyFor(kernel, plainFrom), busy: tallyFor(busy, plainFrom), banded: emptyTally(banded) };
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
    const quick: number[] = [];
    for (let round = 0; round < ROUNDS; round += 1) {
      const from = performance.now();
      const warm = createKernel(jobOf(drawn, []));
      runBlocks(warm, emptyTally(warm), 0, BLOCKS - 1);
      quick.push(performance.now() - from);
    }
    globalThis.gc?.();
    const before = process.memoryUsage.rss();
    const million = createKernel(jobOf(drawn, bandInstants(plan)));
    const counted = emptyTally(million);
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
        name: "4,032 replications after an edit, model included, one thread",
        value: median(quick),
        unit: "ms",
        limit: 15 * yard,
        note: "60 ms where the yardstick takes 4 µs",
      },
      {
        name: "memory that a million replications take beyond what was there",
        value: Math.max(0, process.memoryUsage.rss() - before) / 1e6,
        unit: "MB",
        limit: 250,
      },
    ];
  },
};
