/** A hundred thousand gauge readings brought in: read, checked and written in one step, from text and from a workbook. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Input, OperationName, Output } from "../../app/contract/contract.ts";
import { noMapping } from "../../app/ledger/column-mapping.ts";
import { composeService } from "../../main/service/compose.ts";
import { rowsToWorkbook } from "../../main/exchange/rows-workbook.ts";
import { type Bench, type BenchFigure, median } from "./bench.ts";

const READINGS = 100_000;
const RUNS = 5;
const STEP_MS = 600_000;
const FIRST_AT = Date.UTC(2010, 0, 1);

const instants = Array.from({ length: READINGS }, (_unused, index) => FIRST_AT + index * STEP_MS);
const massOf = (index: number): number => 5000 + (index % 977) * 1.5;

const csv = (): Buffer => {
  const lines = instants.map((at, index) => `Tarn hydrogen,${new Date(at).toISOString()},${massOf(index)},51`);
  return Buffer.from(["tank,at,kg,sigma kg", ...lines].join("\r\n"));
};
const workbook = async (): Promise<Buffer> =>
  await rowsToWorkbook(
    {
      headings: ["tank", "at", "kg", "sigma kg"],
      rows: instants.map((at, index) => ["Tarn hydrogen", new Date(at), massOf(index), 51]),
    },
    "readings",
  );

const measure = async (path: string): Promise<readonly BenchFigure[]> => {
  const service = composeService(true, () => undefined);
  const ask = async <N extends OperationName>(name: N, input: Input<N>): Promise<Output<N>> => {
    const reply = await service.call(name, input);
    if (!reply.ok) throw new Error(`${name}: ${reply.failure.message}`);
    return reply.value;
  };
  /** Each run takes the rows in and takes them back; the first is untimed. */
  const timesOf = async (fileName: string, bytes: Buffer): Promise<{ readonly all: number; readonly look: number }> => {
    const source = { fileName, base64: bytes.toString("base64") };
    const asked = { kind: "readings", planCaseId: "baseline", source, sheet: null, mapping: noMapping } as const;
    const all: number[] = [];
    const look: number[] = [];
    for (let run = 0; run <= RUNS; run += 1) {
      const from = performance.now();
      await ask("rows.preview", asked);
      const looked = performance.now();
      const taken = await ask("rows.import", { ...asked, goodRowsOnly: false });
      const done = performance.now();
      if (!taken.isTaken || taken.newRows !== READINGS) throw new Error("not every reading was taken");
      await ask("plan.undo", {});
      if (run === 0) continue;
      look.push(looked - from);
      all.push(done - looked);
    }
    return { all: median(all), look: median(look) };
  };
  try {
    await ask("ledger.demo", { path, which: "tarn" });
    const text = await timesOf("readings.csv", csv());
    const book = await timesOf("readings.xlsx", await workbook());
    return [
      { name: "100,000 readings: CSV read, checked and written", value: text.all, unit: "ms", limit: 2000 },
      { name: "100,000 readings: CSV read and checked alone", value: text.look, unit: "ms" },
      { name: "100,000 readings: workbook read, checked and written", value: book.all, unit: "ms" },
      { name: "100,000 readings: workbook read and checked alone", value: book.look, unit: "ms" },
    ];
  } finally {
    await service.close();
  }
};

export const bench: Bench = {
  name: "import",
  run: async () => {
    const folder = mkdtempSync(join(tmpdir(), "coldstock-import-bench-"));
    try {
      return await measure(join(folder, "tarn.coldstock"));
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  },
};
