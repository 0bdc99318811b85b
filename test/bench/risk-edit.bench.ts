/**
 * The risk as a person meets it, on the built service in a process of its own: from an edit to the quick answer; and how
 * much two workers do in the time of one, on the bundled kernel. Limits are told in the time of the yardstick.
 */
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { Worker } from "node:worker_threads";
import type { Input, OperationName, Output } from "../../app/contract/contract.ts";
import { startNodeChild } from "../../main/service/link/node-child.ts";
import { linkService } from "../../main/service/link/service-link.ts";
import { withInputs } from "../app/risk/kernel-plan.ts";
import { type Bench, type BenchFigure, BenchUnavailable, median } from "./bench.ts";
import { writeReferenceLedger } from "./reference-ledger.ts";
import { type Bundled, drawn, riskCampaign, withBundle, yardstickOf } from "./risk-bundle.ts";

const program = fileURLToPath(new URL("../../out/main/service.js", import.meta.url));
const RUNS = 4000;
const ROUNDS = 15;
/** The first answers find cold threads. */
const COLD = 4;

/** Blocks of 64 that the workers share; few enough for seconds, many enough that the last one does not tell. */
const SHARED_BLOCKS = 512;
/** Beyond the banded ones, as most of a long run is. */
const PLAIN_FROM = 320;

const yardstickUs = (bundle: Bundled): number => {
  const yardstick = yardstickOf(bundle, riskCampaign());
  const times: number[] = [];
  for (let round = 0; round < 12; round += 1) {
    const from = process.cpuUsage();
    yardstick.run(4096);
    times.push(process.cpuUsage(from).user / 4096);
  }
  return Math.min(...times);
};

/** ms from the reply to an edit to the quick answer of the edited plan. */
const afterAnEdit = async (path: string): Promise<number> => {
  const link = linkService(
    () => startNodeChild(process.execPath, program, () => undefined),
    { onEvent: () => undefined, onNotice: () => undefined },
    () => performance.now(),
  );
  const ask = async <N extends OperationName>(name: N, input: Input<N>): Promise<Output<N>> => {
    const reply = await link.call(name, input);
    if (!reply.ok) throw new Error(`${name}: ${reply.failure.message}`);
    return reply.value as Output<N>;
  };
  try {
    const [first] = (await ask("ledger.open", { path })).planCases;
    const planCaseId = first?.id ?? "";
    const moved = (await ask("plan.view", { planCaseId })).plan.flights[0];
    if (moved === undefined) throw new Error("the campaign has no flight");
    const times: number[] = [];
    for (let round = 1; round <= COLD + ROUNDS; round += 1) {
      const value = { ...moved, arriveAt: moved.arriveAt + round * 60_000 };
      // eslint-disable-next-line no-await-in-loop -- one edit after the other
      await ask("plan.edit", { label: "Move", reason: "", changes: [{ op: "put", kind: "flight", value }] });
      const from = performance.now();
      // eslint-disable-next-line no-await-in-loop -- and the answer to each
      const answer = await ask("risk.run", { planCaseId, seed: 1, runs: RUNS, untilError: null, detail: "quick" });
      if (answer.replications < RUNS) throw new Error("the answer is not whole");
      if (round > COLD) times.push(performance.now() - from);
    }
    return median(times);
  } finally {
    await link.close();
  }
};

/** A worker that takes blocks from a shared counter until there are none; a dry job first, so that its code is warm. */
const WORKER = `
  import { parentPort, workerData } from "node:worker_threads";
  const { createKernel, runBlocks, tallyFor } = await import(workerData.path);
  const kernel = createKernel(workerData.job);
  runBlocks(kernel, tallyFor(kernel, workerData.from), workerData.from, workerData.from + 64);
  const next = new Int32Array(workerData.counter);
  parentPort.on("message", (until) => {
    const tally = tallyFor(kernel, workerData.from);
    for (let block = Atomics.add(next, 0, 1); block < until; block = Atomics.add(next, 0, 1))
      runBlocks(kernel, tally, workerData.from + block, workerData.from + block + 1);
    parentPort.postMessage("done");
  });
  parentPort.postMessage("ready");
`;

/** ms that so many workers take for the shared blocks. */
const withWorkers = async (path: string, count: number): Promise<number> => {
  const counter = new SharedArrayBuffer(4);
  const job = { plan: withInputs(riskCampaign(), drawn), readings: [], seed: 1, bandsAt: [], variant: {} };
  const workers = Array.from(
    { length: count },
    () =>
      new Worker(new URL(`data:text/javascript,${encodeURIComponent(WORKER)}`), {
        workerData: { path: pathToFileURL(path).href, job, counter, from: PLAIN_FROM },
      }),
  );
  const all = (): Promise<unknown> =>
    Promise.all(
      workers.map(
        (worker) => new Promise((resolve, reject) => void worker.once("message", resolve).once("error", reject)),
      ),
    );
  await all();
  const times: number[] = [];
  for (let round = 0; round < 5; round += 1) {
    Atomics.store(new Int32Array(counter), 0, 0);
    const from = performance.now();
    const done = all();
    for (const worker of workers) worker.postMessage(SHARED_BLOCKS);
    // eslint-disable-next-line no-await-in-loop -- one round after the other
    await done;
    times.push(performance.now() - from);
  }
  await Promise.all(workers.map((worker) => worker.terminate()));
  return Math.min(...times);
};

const measure = async (folder: string): Promise<readonly BenchFigure[]> => {
  const path = join(folder, "reference.coldstock");
  writeReferenceLedger(path, withInputs(riskCampaign(), drawn));
  return await withBundle(async (bundle, bundlePath): Promise<readonly BenchFigure[]> => {
    const yard = yardstickUs(bundle);
    const edited = await afterAnEdit(path);
    const one = await withWorkers(bundlePath, 1);
    const two = await withWorkers(bundlePath, 2);
    return [
      {
        name: "4,000 replications after an edit, on warm workers, from question to answer",
        value: edited,
        unit: "ms",
        limit: 15 * yard,
        note: `60 ms where the yardstick takes 4 µs; here ${yard.toFixed(1)} µs`,
      },
      {
        name: "two workers: their time in that of one, quiet machine",
        value: two / one,
        unit: "×",
        limit: 1 / 1.8,
        note: `${(one / two).toFixed(2)} times as fast`,
      },
    ];
  });
};

export const bench: Bench = {
  name: "risk after an edit",
  run: async () => {
    if (!existsSync(program)) throw new BenchUnavailable("the program is not built: npm run build");
    const folder = mkdtempSync(join(tmpdir(), "coldstock-bench-"));
    try {
      return await measure(folder);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  },
};
