/** A ledger of a million postings: opened, its first forecast computed, an edit committed, its journal asked, checked. */
import { mkdtempSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { forecast } from "../../app/forecast/forecast.ts";
import type { EntryKind, JournalEntry } from "../../app/ledger/journal.ts";
import { ledgerInfo, planView } from "../../app/ledger/plan-view.ts";
import type { LedgerStore } from "../../app/contract/store.ts";
import { glance } from "../../app/supply/glance.ts";
import { connect } from "../../db/connection.ts";
import { writeEntry } from "../../db/journal-writing.ts";
import { openLedger } from "../../db/ledger.ts";
import { type Bench, type BenchFigure, median, medianOf } from "./bench.ts";
import { referenceCampaign } from "./reference-campaign.ts";
import { writeReferenceLedger } from "./reference-ledger.ts";

const ENTRIES = 500_000;
const STEP_MS = 120_000;
const RUNS = 7;
/** Received, vented, read: each with two postings. */
const KINDS: readonly EntryKind[] = ["transfer", "vent", "reading"];
const GRAMS = [300_000, -200_000, -60_000] as const;
const OTHER = ["source", "vented", "boil-off"] as const;

/** The n-th entry after the opening: two minutes after the one before, tank after tank. */
const entryOf = (
  n: number,
  tanks: ReturnType<typeof referenceCampaign>["tanks"],
  fromAt: number,
  sourceId: string,
): JournalEntry => {
  const tank = tanks[Math.floor(n / KINDS.length) % tanks.length];
  if (tank === undefined) throw new Error("the campaign has no tank");
  const turn = n % KINDS.length;
  const grams = GRAMS[turn] ?? 0;
  const kind = OTHER[turn] ?? "source";
  const at = fromAt + n * STEP_MS;
  return {
    id: `e${n}`,
    at,
    kind: KINDS[turn] ?? "transfer",
    subjectKey: null,
    reversesId: null,
    note: "",
    author: "bench",
    recordedAt: at,
    postings: [
      { account: { kind: "tank", ownerId: tank.id }, propellantId: tank.propellantId, grams },
      {
        account: { kind, ownerId: kind === "source" ? sourceId : tank.ownerId },
        propellantId: tank.propellantId,
        grams: -grams,
      },
    ],
  };
};

/** Written as the store writes, every posting past the triggers, in one transaction. Answers with the seconds it took. */
const fill = (path: string): number => {
  const plan = referenceCampaign();
  const [source] = plan.sources;
  if (source === undefined) throw new Error("the campaign has no source");
  const db = connect(path, false);
  const from = performance.now();
  db.write(() => {
    for (let n = 1; n <= ENTRIES; n += 1)
      writeEntry(db, entryOf(n, plan.tanks, plan.asOfAt - (ENTRIES + 1) * STEP_MS, source.id));
  });
  const seconds = (performance.now() - from) / 1000;
  db.sqlite.pragma("wal_checkpoint(TRUNCATE)");
  db.sqlite.close();
  return seconds;
};

const firstForecast = (store: LedgerStore): void => {
  const [planCase] = ledgerInfo(store).planCases;
  if (planCase === undefined) throw new Error("the ledger has no plan case");
  const { plan } = planView(store, planCase.id);
  if (glance(plan, forecast(plan)).sorties.length === 0) throw new Error("the forecast is empty");
};

const openingFigures = (path: string, note: string): readonly BenchFigure[] => {
  const opened: number[] = [];
  const shown: number[] = [];
  for (let run = 0; run <= RUNS; run += 1) {
    const from = performance.now();
    const store = openLedger(path);
    const isOpen = performance.now();
    firstForecast(store);
    const isShown = performance.now();
    store.close();
    if (run === 0) continue;
    opened.push(isOpen - from);
    shown.push(isShown - from);
  }
  return [
    { name: "large ledger: opened", value: median(opened), unit: "ms", note },
    {
      name: "large ledger: opened, with its first forecast and statuses",
      value: median(shown),
      unit: "ms",
      limit: 500,
      note,
    },
  ];
};

const page = {
  fromAt: null,
  untilAt: null,
  accountKind: null,
  ownerId: null,
  propellantId: null,
  subjectKey: null,
  text: "",
  offset: 0,
  limit: 100,
};

const useFigures = (path: string): readonly BenchFigure[] => {
  const store = openLedger(path);
  const [flight] = store.entities().flight;
  if (flight === undefined) throw new Error("the campaign has no flight");
  let turn = 0;
  const edit = (): void => {
    turn += 1;
    const value = { ...flight, note: `${turn}` };
    const recordedAt = turn;
    store.commit({
      label: "note",
      reason: "",
      author: "bench",
      recordedAt,
      changes: [{ op: "put", kind: "flight", value }],
      entries: [],
      readings: [],
      withdrawnReadingIds: [],
      reversedEntryIds: [],
    });
  };
  const { lastRecordAt } = store.header();
  const untilAt = (lastRecordAt ?? 0) - 1000 * STEP_MS;
  const figures: BenchFigure[] = [
    { name: "large ledger: an edit committed to disk", value: medianOf(50, edit), unit: "ms" },
    {
      name: "large ledger: an edit undone and redone",
      value: medianOf(20, () => (store.undo("bench", 1), store.redo("bench", 1))),
      unit: "ms",
    },
    {
      name: "large ledger: newest page of the journal with sums",
      value: medianOf(RUNS, () => void store.journal(page)),
      unit: "ms",
    },
    {
      name: "large ledger: page and sums up to a date",
      value: medianOf(3, () => void store.journal({ ...page, untilAt })),
      unit: "ms",
    },
    {
      name: "large ledger: whole check of the file",
      value: medianOf(1, () => {
        if (!store.verify().isSound) throw new Error("unsound");
      }),
      unit: "ms",
    },
  ];
  store.close();
  return figures;
};

export const bench: Bench = {
  name: "ledger",
  run: () => {
    const folder = mkdtempSync(join(tmpdir(), "ledger-bench-"));
    try {
      const path = join(folder, "large.coldstock");
      writeReferenceLedger(path);
      const seconds = fill(path);
      const note = `${(2 * ENTRIES).toLocaleString("en")} postings, ${(statSync(path).size / 1e6).toFixed(0)} MB`;
      return [
        {
          name: "large ledger: written, postings a second through the triggers",
          value: (2 * ENTRIES) / seconds,
          unit: "1/s",
          note,
        },
        ...openingFigures(path, note),
        ...useFigures(path),
      ];
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  },
};
