/**
 * The service in a process of its own over the reference campaign: how long a change takes until it is safely in the file
 * and answered, what the queries of a view take, and whether a running check holds a change up.
 */
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Input, OperationName, Output } from "../../app/contract/contract.ts";
import type { Entity } from "../../app/entity/entities.ts";
import { startNodeChild } from "../../main/service/link/node-child.ts";
import { linkService } from "../../main/service/link/service-link.ts";
import { type Bench, type BenchFigure, BenchUnavailable, median, medianOfAsync } from "./bench.ts";
import { writeReferenceLedger } from "./reference-ledger.ts";

const program = fileURLToPath(new URL("../../out/main/service.js", import.meta.url));
const EDITS = 200;
const RUNS = 9;

const measure = async (path: string): Promise<readonly BenchFigure[]> => {
  const startedAt = performance.now();
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
    const planCaseId = (await ask("ledger.open", { path })).planCases[0]?.id ?? "";
    const startMs = performance.now() - startedAt;
    const flight = (await ask("plan.view", { planCaseId })).plan.flights[0];
    if (flight === undefined) throw new Error("the campaign has no flight");
    let moves = 0;
    const move = async (): Promise<void> => {
      moves += 1;
      const value: Entity<"flight"> = { ...flight, arriveAt: flight.arriveAt + moves * 60_000 };
      await ask("plan.edit", { label: "Move", reason: "", changes: [{ op: "put", kind: "flight", value }] });
    };
    const editMs = await medianOfAsync(EDITS, move);
    const viewMs = await medianOfAsync(RUNS, async () => void (await ask("plan.view", { planCaseId })));
    const checkTimes: number[] = [];
    for (let run = 0; run < RUNS; run += 1) {
      await move();
      const from = performance.now();
      await ask("supply.check", { planCaseId });
      checkTimes.push(performance.now() - from);
    }
    const keptMs = await medianOfAsync(RUNS, async () => void (await ask("supply.check", { planCaseId })));
    const editsBeside: number[] = [];
    for (let run = 0; run < RUNS; run += 1) {
      await move();
      // The change that comes in the middle stops it: its answer is of no more use.
      const checking = link.call("supply.check", { planCaseId });
      const from = performance.now();
      await move();
      editsBeside.push(performance.now() - from);
      await checking;
    }
    return [
      {
        name: "service start until the ledger is open",
        value: startMs,
        unit: "ms",
        note: "the built program, one run",
      },
      { name: "one edit, until it is acknowledged", value: editMs, unit: "ms" },
      { name: "the view of a plan case, through the service", value: viewMs, unit: "ms" },
      { name: "supply check in a thread, through the service", value: median(checkTimes), unit: "ms" },
      {
        name: "the same again, kept",
        value: keptMs,
        unit: "ms",
        ratioTo: "supply check in a thread, through the service",
      },
      {
        name: "one edit while a check runs",
        value: median(editsBeside),
        unit: "ms",
        ratioTo: "one edit, until it is acknowledged",
      },
    ];
  } finally {
    await link.close();
  }
};

export const bench: Bench = {
  name: "service",
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
