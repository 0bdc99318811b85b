/** The ledger files of db, as the service wants them. */
import { parseDocument } from "../../app/exchange/ledger-document.ts";
import { createLedger, loadDocument, openLedger, takeAwayLedger } from "../../db/ledger.ts";
import { putBack } from "../../db/put-back.ts";
import { readLedgerFile, readLedgerState } from "../../db/read-only-copy.ts";
import { readTextFile } from "../page/text-file.ts";
import type { LedgerFiles } from "./ledger-files.ts";

export const databaseFiles: LedgerFiles = {
  open: openLedger,
  create: (path, programme) => createLedger(path, { programme }),
  fromDocument: loadDocument,
  takeAway: takeAwayLedger,
  read: (path) => (path.toLowerCase().endsWith(".json") ? parseDocument(readTextFile(path)) : readLedgerFile(path)),
  state: readLedgerState,
  putBack,
};
