/**
 * The report as PDF, from the ledger to the bytes, through the service with its threads: the demonstration, and the
 * reference campaign; and whether an edit waits while one is written.
 */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { composeService } from "../../main/service/compose.ts";
import type { AskedChoices } from "../../app/ledger/report-request.ts";
import type { Input, OperationName, Output } from "../../app/contract/contract.ts";
import { type Bench, type BenchFigure, median, medianOfAsync } from "./bench.ts";
import { writeReferenceLedger } from "./reference-ledger.ts";

const RUNS = 5;
const DEMO_LIMIT_MS = 1500;
const REFERENCE_LIMIT_MS = 4000;

const everything = (planCaseId: string): AskedChoices => ({
  planCaseId,
  compareId: null,
  fromAt: null,
  untilAt: null,
  massUnit: "t",
  paper: "A4",
  sectionIds: null,
});

const measure = async (folder: string): Promise<readonly BenchFigure[]> => {
  const service = composeService(true, (line) => process.stderr.write(`${line}\n`));
  const ask = async <N extends OperationName>(name: N, input: Input<N>): Promise<Output<N>> => {
    const reply = await service.call(name, input);
    if (!reply.ok) throw new Error(`${name}: ${reply.failure.message}`);
    return reply.value;
  };
  let bytes = 0;
  const write = async (planCaseId: string): Promise<void> => {
    // A step that changes nothing of the plan's answers, so that no kept supply check makes the run look fast.
    const { asOfAt } = await ask("ledger.info", {});
    await ask("ledger.asOf", { asOfAt: asOfAt + 60_000 });
    const of = { kind: "draft", choices: everything(planCaseId) } as const;
    const file = await ask("report.write", { of, form: "pdf", tableId: null });
    bytes = (file.base64.length * 3) / 4;
  };
  try {
    await ask("ledger.demo", { path: join(folder, "tarn.coldstock"), which: "tarn" });
    const demoMs = await medianOfAsync(RUNS, () => write("baseline"));
    const path = join(folder, "reference.coldstock");
    writeReferenceLedger(path);
    const planCaseId = (await ask("ledger.open", { path })).planCases[0]?.id ?? "";
    const referenceMs = await medianOfAsync(RUNS, () => write(planCaseId));
    const kilobytes = bytes / 1000;
    const edits: number[] = [];
    const flight = (await ask("plan.view", { planCaseId })).plan.flights[0];
    if (flight === undefined) throw new Error("the campaign has no flight");
    await ask("report.issue", { choices: everything(planCaseId), note: "" });
    for (let run = 0; run < RUNS; run += 1) {
      // Of a kept issue, so that the edit does not end it.
      const writing = service.call("report.write", { of: { kind: "issue", number: 1 }, form: "pdf", tableId: null });
      const from = performance.now();
      const value = { ...flight, arriveAt: flight.arriveAt + (run + 1) * 60_000 };
      await ask("plan.edit", { label: "Move", reason: "", changes: [{ op: "put", kind: "flight", value }] });
      edits.push(performance.now() - from);
      await writing;
    }
    return [
      { name: "demonstration's report as PDF", value: demoMs, unit: "ms", limit: DEMO_LIMIT_MS },
      {
        name: "reference campaign's report as PDF",
        value: referenceMs,
        unit: "ms",
        limit: REFERENCE_LIMIT_MS,
        note: `${Math.round(kilobytes)} kB`,
      },
      { name: "one edit while a report is written", value: median(edits), unit: "ms" },
    ];
  } finally {
    await service.close();
  }
};

export const bench: Bench = {
  name: "report",
  run: async () => {
    const folder = mkdtempSync(join(tmpdir(), "coldstock-bench-"));
    try {
      return await measure(folder);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  },
};
