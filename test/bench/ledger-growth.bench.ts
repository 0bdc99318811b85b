/** How a ledger grows, and what an edit and an undo cost, with the digests that are kept of each. */
import { mkdtempSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { demoTarn } from "../../app/demo/tarn.ts";
import type { Entity } from "../../app/entity/entities.ts";
import type { LedgerStore } from "../../app/contract/store.ts";
import { loadDocument, openLedger } from "../../db/ledger.ts";
import { type Bench, type BenchFigure, median } from "./bench.ts";

const MOVES = 5000;
const HOUR_MS = 3_600_000;

const move = (store: LedgerStore, flight: Entity<"flight">, n: number): number => {
  const from = performance.now();
  store.commit({
    label: `Move ${flight.name}`,
    reason: "",
    author: "bench",
    recordedAt: flight.departAt,
    changes: [
      {
        op: "put",
        kind: "flight",
        value: {
          ...flight,
          departAt: flight.departAt + (n % 500) * HOUR_MS,
          arriveAt: flight.arriveAt + (n % 500) * HOUR_MS,
        },
      },
    ],
    entries: [],
    readings: [],
    withdrawnReadingIds: [],
    reversedEntryIds: [],
  });
  return performance.now() - from;
};

const run = (): readonly BenchFigure[] => {
  const folder = mkdtempSync(join(tmpdir(), "coldstock-growth-"));
  try {
    const path = join(folder, "growth.coldstock");
    loadDocument(path, demoTarn()).close();
    const before = statSync(path).size;
    let store = openLedger(path);
    const flight = store.entities().flight.find(({ status }) => status === "planned");
    if (flight === undefined) throw new Error("the demonstration has no planned flight");
    const edits = Array.from({ length: MOVES }, (_, n) => move(store, flight, n + 1));
    store.close();
    const grown = statSync(path).size - before;
    store = openLedger(path);
    const undos = Array.from({ length: 500 }, () => {
      const from = performance.now();
      store.undo("bench", 0);
      return performance.now() - from;
    });
    store.close();
    return [
      { name: "ledger: a move until it is on the disk", value: median(edits), unit: "ms" },
      { name: "ledger: an undo until it is on the disk", value: median(undos), unit: "ms" },
      { name: "ledger: growth a move", value: grown / MOVES, unit: "bytes", limit: 300 },
    ];
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};

export const bench: Bench = { name: "ledger growth", run };
