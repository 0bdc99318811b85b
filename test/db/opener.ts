/** A process that opens the ledger named to it, says why it may only read (null: it may write), and stays. */
import { openLedger } from "../../db/ledger.ts";

const store = openLedger(process.argv[2] ?? "");
process.send?.(store.header().readOnlyBecause);
// It names the store, which would else be given up as of no more use, and its lock with it.
setInterval(() => store.header(), 1 << 30);
