/** The ledger files of db, as the service wants them. */
import { createLedger, loadDocument, openLedger } from "../../db/ledger.ts";
import type { LedgerFiles } from "./ledger-files.ts";

export const databaseFiles: LedgerFiles = {
  open: openLedger,
  create: (path, programme) => createLedger(path, { programme }),
  fromDocument: loadDocument,
};
