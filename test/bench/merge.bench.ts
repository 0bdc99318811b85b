/** Merging two sites' ledgers: 20,000 records in common, 1,000 more on each side, compared and made into one step. */
import type { LedgerDocument } from "../../app/ledger/ledger-view.ts";
import type { JournalEntry } from "../../app/ledger/journal.ts";
import { mergeLedgers } from "../../app/merge/merge.ts";
import type { Recorder } from "../../app/records/recorder.ts";
import { type Bench, medianOf } from "./bench.ts";
import { referenceDocument } from "./reference-ledger.ts";

const COMMON = 20_000;
const NEW = 1000;
const STEP_MS = 600_000;
const RUNS = 5;

/** Received and vented in turn, tank after tank; every tenth a level that stands 1 kg lower. `offsetMs` sets two sites apart. */
const entriesOf = (document: LedgerDocument, site: string, from: number, count: number, offsetMs: number) =>
  Array.from({ length: count }, (_, i): JournalEntry => {
    const n = from + i;
    const tank = document.entities.tank[n % document.entities.tank.length];
    const source = document.entities.source[0];
    if (tank === undefined || source === undefined) throw new Error("the campaign has no tank or no source");
    const isLevel = n % 10 === 9;
    const grams = isLevel ? -1000 : n % 2 === 0 ? 50_000 : -49_000;
    const at = (document.asOfAt ?? 0) + n * STEP_MS + offsetMs;
    const other = isLevel ? "unaccounted" : grams > 0 ? "source" : "vented";
    return {
      id: `${site}-${n}`,
      at,
      kind: isLevel ? "reading" : grams > 0 ? "transfer" : "vent",
      subjectKey: null,
      reversesId: null,
      note: "",
      author: site,
      recordedAt: at,
      postings: [
        { account: { kind: "tank", ownerId: tank.id }, propellantId: tank.propellantId, grams },
        {
          account: { kind: other, ownerId: other === "source" ? source.id : tank.ownerId },
          propellantId: tank.propellantId,
          grams: -grams,
        },
      ],
    };
  });

const sites = (): { readonly ours: LedgerDocument; readonly theirs: LedgerDocument } => {
  const start = referenceDocument();
  const common = entriesOf(start, "common", 1, COMMON, 0);
  const with1000 = (site: string, offsetMs: number): LedgerDocument => ({
    ...start,
    entries: [...start.entries, ...common, ...entriesOf(start, site, COMMON + 1, NEW, offsetMs)],
  });
  return { ours: with1000("north", 0), theirs: with1000("south", STEP_MS / 2) };
};

export const bench: Bench = {
  name: "merge",
  run: () => {
    const { ours, theirs } = sites();
    let ids = 0;
    const recorder: Recorder = { author: "bench", recordedAt: 0, newId: () => `entry-${(ids += 1)}` };
    const input = { ours, theirs, fileName: "south.coldstock", decisions: [], takeCases: [] };
    const { view } = mergeLedgers(input, recorder);
    if (view.incomingCount !== NEW || view.conflicts.length > 0) throw new Error("the two sites are not as meant");
    return [
      {
        name: "two sites' ledgers of 20,000 records compared, 1,000 of theirs made into a step",
        value: medianOf(RUNS, () => void mergeLedgers(input, recorder)),
        unit: "ms",
        limit: 5000,
      },
    ];
  },
};
