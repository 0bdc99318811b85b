/** A hundred thousand gauge readings brought in: read, checked and written in one step, from text and from a workbook. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { demoTarn } from "../../app/demo/tarn.ts";
import type { LedgerBooks } from "../../app/ledger/books.ts";
import { loadDocument } from "../../db/ledger.ts";
import type { Input, OperationName, Output } from "../../app/contract/contract.ts";
import { noMapping } from "../../app/ledger/column-mapping.ts";
import { composeService } from "../../main/service/compose.ts";
import { rowsToWorkbook } from "../../main/exchange/rows-workbook.ts";
import { type Bench, type BenchFigure, median } from "./bench.ts";
import { DENSE_READINGS, denseCsv, denseHeadings, denseReadings } from "./dense-readings.ts";

const RUNS = 5;

const workbook = async (store: LedgerBooks): Promise<Buffer> =>
  await rowsToWorkbook(
    {
      headings: [...denseHeadings],
      rows: denseReadings(store).map(([tank, at, ...rest]) => [tank, new Date(at), ...rest]),
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
      if (!taken.isTaken || taken.newRows !== DENSE_READINGS) throw new Error("not every reading was taken");
      await ask("plan.undo", {});
      if (run === 0) continue;
      look.push(looked - from);
      all.push(done - looked);
    }
    return { all: median(all), look: median(look) };
  };
  try {
    const store = loadDocument(path, demoTarn());
    const [csv, xlsx] = [Buffer.from(denseCsv(store)), await workbook(store)];
    store.close();
    await ask("ledger.open", { path });
    const text = await timesOf("readings.csv", csv);
    const book = await timesOf("readings.xlsx", xlsx);
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
