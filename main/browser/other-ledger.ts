/** The other desk's ledger while it is looked at: uploaded, kept apart from the ledgers, and never opened to be written. */
import { mkdirSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { HeldFile } from "../../app/contract/bridge.ts";
import { LEDGER_ENDING, ledgerFileName } from "../page/ledger-name.ts";
import { makeLedgerTokens } from "../page/ledger-tokens.ts";

export interface OtherLedger {
  /** Keeps an upload; the one before goes. */
  keep(name: string, bytes: Buffer): HeldFile;
  /** Throws "not found". */
  pathOf(token: string): string;
}

const FOLDER = "merging";

/** In a folder of its own below the ledgers'; what an earlier run left there goes. */
export const otherLedger = (ledgerFolder: string): OtherLedger => {
  const folder = join(ledgerFolder, FOLDER);
  let count = 0;
  let tokens = makeLedgerTokens();
  const empty = (): void => rmSync(folder, { recursive: true, force: true });
  empty();
  return {
    keep: (name, bytes) => {
      empty();
      tokens = makeLedgerTokens();
      // A folder for each upload: a name that comes twice is two files.
      const own = join(folder, `${(count += 1)}`);
      mkdirSync(own, { recursive: true });
      const stem = ledgerFileName(name).slice(0, -LEDGER_ENDING.length);
      const fileName = `${stem}${/\.json$/iu.test(name) ? ".json" : LEDGER_ENDING}`;
      const path = join(own, fileName);
      writeFileSync(path, bytes, { flag: "wx" });
      return { token: tokens.tokenOf(path), name: fileName };
    },
    pathOf: (token) => tokens.pathOf(token),
  };
};
