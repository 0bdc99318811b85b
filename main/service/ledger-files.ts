/** How the service comes by a ledger: the file operations that db provides, as one object that a test can replace. */
import type { LedgerState } from "../../app/copies/go-back.ts";
import type { LedgerDocument } from "../../app/ledger/ledger-view.ts";
import type { LedgerStore } from "../../app/contract/store.ts";

export interface LedgerFiles {
  /** Throws "not a ledger", "storage". A file held elsewhere opens read-only. */
  open(path: string): LedgerStore;
  /** Throws "refused" where there is a file already. */
  create(path: string, programme: string): LedgerStore;
  /** Makes a ledger that holds the document, whole or not at all. */
  fromDocument(path: string, document: LedgerDocument): LedgerStore;
  /** Takes a ledger away that was just made and is closed again: file, log and lock. Throws "storage". */
  takeAway(path: string): void;
  /** Another ledger, a file or an exported document, read whole and left untouched. Throws as opening or importing it would. */
  read(path: string): LedgerDocument;
  /** A copy of a ledger, read whole with its place in its history. */
  state(path: string): LedgerState;
  /** Puts a copy in the place of a ledger that is not open here. `keepsAside`: what stands there stays beside it. */
  putBack(copy: string, path: string, keepsAside: boolean): void;
}
