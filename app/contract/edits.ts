/** Which commands of the contract change the ledger that is open, and not only which one is open or what lies beside it. */
import { contract, type OperationName } from "./contract.ts";

const others: ReadonlySet<OperationName> = new Set<OperationName>([
  "job.cancel",
  "ledger.open",
  "ledger.create",
  "ledger.demo",
  "ledger.import",
  "ledger.copy",
  "copies.keep",
  "copies.putBack",
]);

export const editsLedger = (name: OperationName): boolean => contract[name].kind === "command" && !others.has(name);
