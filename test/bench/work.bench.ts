/**
 * Long work over the reference campaign, on the built service in a process of its own: an answer kept across an unrelated
 * edit, how soon something is known of a job of ten seconds, how soon it stops, and whether interactive work waits for batch.
 */
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Input, OperationName, Output } from "../../app/contract/contract.ts";
import type { Entity } from "../../app/entity/entities.ts";
import { startNodeChild } from "../../main/service/link/node-child.ts";
import { linkService } from "../../main/service/link/service-link.ts";
import type { ServiceEvent } from "../../main/service/service.ts";
import { type Bench, type BenchFigure, BenchUnavailable, median } from "./bench.ts";
import { writeReferenceLedger } from "./reference-ledger.ts";

const program = fileURLToPath(new URL("../../out/main/service.js", import.meta.url));
const RUNS = 7;
/** Ten seconds and more, whatever the machine; each is stopped long before. */
const LONG_RUNS = 50_000_000;

const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

const measure = async (path: string): Promise<readonly BenchFigure[]> => {
  const listeners = new Set<(event: ServiceEvent) => void>();
  const link = linkService(
    () => startNodeChild(process.execPath, program, () => undefined),
    {
      onEvent: (event) => {
        for (const listener of listeners) listener(event);
      },
      onNotice: () => undefined,
    },
    () => performance.now(),
  );
  const ask = async <N extends OperationName>(name: N, input: Input<N>, jobId?: string): Promise<Output<N>> => {
    const reply = await link.call(name, input, jobId);
    if (!reply.ok) throw new Error(`${name}: ${reply.failure.message}`);
    return reply.value as Output<N>;
  };
  const timed = async (work: () => Promise<unknown>): Promise<number> => {
    const from = performance.now();
    await work();
    return performance.now() - from;
  };
  /** Resolves when something is known of a job. */
  const firstPartial = (jobId: string): Promise<void> =>
    new Promise((resolve) => {
      const listener = (event: ServiceEvent): void => {
        if (event.event !== "progress" || event.payload.jobId !== jobId || event.payload.partial === undefined) return;
        listeners.delete(listener);
        resolve();
      };
      listeners.add(listener);
    });
  try {
    const [first] = (await ask("ledger.open", { path })).planCases;
    const planCaseId = first?.id ?? "";
    await ask("case.copy", { fromId: planCaseId, newId: "other", name: "Other" });
    const { plan } = await ask("plan.view", { planCaseId: "other" });
    const elsewhere = plan.flights[0];
    const here = (await ask("plan.view", { planCaseId })).plan.flights[0];
    if (elsewhere === undefined || here === undefined) throw new Error("the campaign has no flight");
    let moves = 0;
    const move = async (flight: Entity<"flight">): Promise<void> => {
      moves += 1;
      const value: Entity<"flight"> = { ...flight, arriveAt: flight.arriveAt + moves * 60_000 };
      await ask("plan.edit", { label: "Move", reason: "", changes: [{ op: "put", kind: "flight", value }] });
    };
    const check = (): Promise<unknown> => ask("supply.check", { planCaseId });
    const long = (jobId: string): Promise<unknown> =>
      link.call("risk.run", { planCaseId, seed: 1, runs: LONG_RUNS, untilError: null, detail: "quick" }, jobId);
    const stop = (jobId: string): Promise<unknown> => ask("job.cancel", { jobId });

    const anew: number[] = [];
    const kept: number[] = [];
    for (let run = 0; run < RUNS; run += 1) {
      await move(here);
      anew.push(await timed(check));
      await move(elsewhere);
      kept.push(await timed(check));
    }

    const partials: number[] = [];
    const stops: number[] = [];
    for (let run = 0; run < RUNS; run += 1) {
      const jobId = `long ${String(run)}`;
      // Another state of the plan, so that nothing of it is known.
      await move(here);
      const known = firstPartial(jobId);
      const from = performance.now();
      const reply = long(jobId);
      const isKnown = await Promise.race([known.then(() => true), reply.then(() => false)]);
      if (!isKnown) throw new Error(`the job ended before anything was known of it: ${JSON.stringify(await reply)}`);
      partials.push(performance.now() - from);
      await pause(50);
      stops.push(
        await timed(async () => {
          await stop(jobId);
          await reply;
        }),
      );
    }

    const alone: number[] = [];
    const beside: number[] = [];
    for (let run = 0; run < RUNS; run += 1) {
      await move(here);
      alone.push(await timed(check));
      await move(here);
      const replies = [
        long("batch one"),
        link.call(
          "risk.run",
          { planCaseId: "other", seed: 2, runs: LONG_RUNS, untilError: null, detail: "quick" },
          "batch two",
        ),
      ];
      await pause(300);
      beside.push(await timed(check));
      await stop("batch one");
      await stop("batch two");
      await Promise.all(replies);
    }
    const aloneMs = median(alone);
    return [
      {
        name: "an answer computed anew",
        value: median(anew),
        unit: "ms",
        note: "supply check of the reference campaign",
      },
      {
        name: "the same answer kept across an edit of another plan case",
        value: median(kept),
        unit: "ms",
        ratioTo: "an answer computed anew",
        limit: Math.max(5, 0.35 * median(anew)),
      },
      {
        name: "first partial answer of a job of ten seconds and more",
        value: median(partials),
        unit: "ms",
        limit: 200,
        note: "a risk run, from the call to the event",
      },
      { name: "stop of that job, until it has answered", value: median(stops), unit: "ms", limit: 50 },
      { name: "an interactive question alone", value: aloneMs, unit: "ms" },
      {
        name: "the same while two batch jobs run",
        value: median(beside),
        unit: "ms",
        ratioTo: "an interactive question alone",
        limit: 1.5 * aloneMs,
      },
    ];
  } finally {
    await link.close();
  }
};

export const bench: Bench = {
  name: "work",
  run: async () => {
    if (!existsSync(program)) throw new BenchUnavailable("the program is not built: npm run build");
    const folder = mkdtempSync(join(tmpdir(), "coldstock-bench-"));
    try {
      const path = join(folder, "reference.coldstock");
      writeReferenceLedger(path);
      return await measure(path);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  },
};
