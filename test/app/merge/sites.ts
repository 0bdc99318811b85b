/** Two sites, each with a copy of the hand-made ledger, that record on their own. */
import Sqlite from "better-sqlite3";
import type { Input } from "../../../app/contract/contract.ts";
import type { RecordName } from "../../../app/records/record-input.ts";
import type { LedgerDocument } from "../../../app/ledger/ledger-view.ts";
import type { LedgerStore } from "../../../app/contract/store.ts";
import type { Choice } from "../../../app/merge/merge-choices.ts";
import { type Merge, mergeLedgers } from "../../../app/merge/merge.ts";
import { recordSteps } from "../../../app/records/preview.ts";
import { recordEntry } from "../../../app/records/record-entry.ts";
import { recordReverse, recordWithdrawal } from "../../../app/records/record-reverse.ts";
import type { Recorder } from "../../../app/records/recorder.ts";
import { connectionOver } from "../../../db/connection.ts";
import { ledgerStore } from "../../../db/ledger-store.ts";
import { migrate, readMigrations } from "../../../db/migrate.ts";
import { writeDocument } from "../../../db/write-document.ts";
import { day, handLedger } from "../records/hand-ledger.ts";

export interface Site {
  readonly name: string;
  readonly store: LedgerStore;
  readonly recorder: Recorder;
  record<N extends RecordName>(record: N, input: Input<N>): void;
  entry(input: Input<"record.entry">): void;
  takeBack(entryId: string): void;
  withdraw(readingId: string): void;
}

let made = 0;

/** The ledger's own store, over a database in memory: no disk to wait for. */
const storeInMemory = (document: LedgerDocument): LedgerStore => {
  const db = connectionOver(new Sqlite(":memory:"));
  migrate(db, readMigrations());
  writeDocument(db, document);
  return ledgerStore(db, { path: "in memory", readOnlyBecause: null, onClose: () => undefined });
};

/** A ledger with this content, and who writes in it. */
export const siteWith = (name: string, document: LedgerDocument): Site => {
  made += 1;
  const store = storeInMemory(document);
  let ids = 0;
  const stem = `${name.toLowerCase()}-${made}`;
  const recorder: Recorder = {
    author: name,
    recordedAt: day(300),
    newId: () => `entry-${stem}-${(ids += 1)}`,
  };
  return {
    name,
    store,
    recorder,
    record: (record, input) => store.commit(recordSteps[record](store, input, recorder)),
    entry: (input) => store.commit(recordEntry(store, input, recorder)),
    takeBack: (entryId) => store.commit(recordReverse(store, { entryId, reason: "was wrong" }, recorder)),
    withdraw: (readingId) => store.commit(recordWithdrawal(store, { readingId, reason: "gauge was off" }, recorder)),
  };
};

/** Two copies of one ledger: 1,000 kg of hydrogen and 4,000 kg of oxygen on day 0. `before`: recorded before the copy. */
export const twoSites = (
  folder: string,
  before: (first: Site) => void = () => undefined,
): { readonly north: Site; readonly south: Site } => {
  const store = handLedger(folder);
  const first = siteWith("First", store.document());
  store.close();
  before(first);
  const document = first.store.document();
  first.store.close();
  return { north: siteWith("North", document), south: siteWith("South", document) };
};

/** What merging the other site's records would do here; every conflict decided alike, or left open. */
export const lookAt = (here: Site, there: Site, choice: Choice | null = null, takeCases: string[] = []): Merge => {
  const input = {
    ours: here.store.document(),
    theirs: there.store.document(),
    fileName: `${there.name}.coldstock`,
    takeCases,
  };
  const open = mergeLedgers({ ...input, decisions: [] }, here.recorder);
  if (choice === null) return open;
  const decisions = open.view.conflicts.map(({ id: conflictId }) => ({ conflictId, choice }));
  return mergeLedgers({ ...input, decisions }, here.recorder);
};

/** Brings the other site's records in. */
export const merge = (here: Site, there: Site, choice: Choice | null = null): Merge => {
  const made = lookAt(here, there, choice);
  here.store.commit(made.step);
  return made;
};

/** Grams on every account, those of nothing left out, counted from the entries. */
export const balances = ({ store }: Site): ReadonlyMap<string, number> => {
  const sums = new Map<string, number>();
  for (const { postings } of store.document().entries)
    for (const { account, propellantId, grams } of postings) {
      const key = `${account.kind}/${account.ownerId}/${propellantId}`;
      sums.set(key, (sums.get(key) ?? 0) + grams);
    }
  return new Map([...sums].filter(([, grams]) => grams !== 0).toSorted(([a], [b]) => (a < b ? -1 : 1)));
};

/** Balance of one account, kg. */
export const kgOn = (site: Site, account: string, propellantId = "lh2"): number =>
  (balances(site).get(`${account}/${propellantId}`) ?? 0) / 1000;
