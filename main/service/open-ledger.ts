/** The one ledger that the service has open. */
import { statSync } from "node:fs";
import { PlanningError } from "../../app/ground/failure.ts";
import type { LedgerStore } from "../../app/contract/store.ts";

/** Which state of which file; anything computed from one stamp holds for that stamp alone. */
export interface Stamp {
  readonly path: string;
  readonly revision: number;
}

export interface OpenLedger {
  /** Throws "no ledger". */
  store(): LedgerStore;
  /** The stamp of the open ledger; null: none is open. */
  stamp(): Stamp | null;
  /**
   * Puts the ledger that `open` gives in the place of the present one and gives what `look` says of it. The present one
   * stays if either throws; where there was none, one that opened and cannot be looked at stands open to be checked.
   */
  replace<T>(open: () => LedgerStore, look: (store: LedgerStore) => T): T;
  /**
   * The same with a ledger whose file `make` has just made: where `look` throws, `takeAway` removes the file again, for told
   * failed is not done. Where that fails too, the failure says that the file is there.
   */
  replaceWithNew<T>(make: () => LedgerStore, look: (store: LedgerStore) => T, takeAway: () => void): T;
  /** Closes the present ledger, lets its file be changed, and opens what `open` gives, also if `change` throws. */
  reopen(change: () => void, open: () => LedgerStore): void;
  /** Whether this file is the one that is open, writable. */
  isOpen(path: string): boolean;
  close(): void;
}

/** Whether both paths lead to one file, by whatever name or link. */
const isSameFile = (one: string, other: string): boolean => {
  try {
    const [a, b] = [statSync(one, { bigint: true }), statSync(other, { bigint: true })];
    return a.dev === b.dev && a.ino === b.ino;
  } catch {
    // Not there yet, or not to be read: opening it will say so.
    return false;
  }
};

/** null: none is open, or its file was spoiled since; then another can be opened all the same. */
const headerOf = (store: LedgerStore | null): ReturnType<LedgerStore["header"]> | null => {
  try {
    return store?.header() ?? null;
  } catch {
    return null;
  }
};

/** Closes a new ledger and takes its file away. Throws "storage", with why it had to go, if it still lies there. */
const discard = (store: LedgerStore, takeAway: () => void, why: unknown): void => {
  try {
    store.close();
  } catch {
    // What cannot be closed can be taken away all the same.
  }
  try {
    takeAway();
  } catch {
    const words = why instanceof Error ? why.message : String(why);
    throw new PlanningError(
      "storage",
      `${words} The new ledger was made all the same, and could not be taken away again: its file lies there.`,
      "path",
    );
  }
};

export const makeOpenLedger = (): OpenLedger => {
  let present: LedgerStore | null = null;
  return {
    store: () => {
      if (present === null) throw new PlanningError("no ledger", "No ledger is open. Open one, or make a new one.");
      return present;
    },
    stamp: () => {
      if (present === null) return null;
      const { path, revision } = present.header();
      return { path, revision };
    },
    replace: (open, look) => {
      const before = present;
      const next = open();
      try {
        const said = look(next);
        present = next;
        before?.close();
        return said;
      } catch (error) {
        if (before === null) present = next;
        else if (present !== next) next.close();
        throw error;
      }
    },
    replaceWithNew: (make, look, takeAway) => {
      const before = present;
      const next = make();
      let said;
      try {
        said = look(next);
      } catch (error) {
        discard(next, takeAway, error);
        throw error;
      }
      present = next;
      before?.close();
      return said;
    },
    reopen: (change, open) => {
      present?.close();
      present = null;
      try {
        change();
      } finally {
        present = open();
      }
    },
    isOpen: (path) => {
      const before = headerOf(present);
      // One that could only be read may be free by now; it is not taken for open.
      if (before === null || before.readOnlyBecause !== null) return false;
      return isSameFile(path, before.path);
    },
    close: () => {
      present?.close();
      present = null;
    },
  };
};
