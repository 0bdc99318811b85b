/** The service itself: the first greeting, and stopping what runs. */
import product from "../../../package.json" with { type: "json" };
import { CONTRACT_VERSION, type OperationName } from "../../../app/contract/contract.ts";
import type { HandlersOf } from "../context.ts";

export const serviceHandlers: HandlersOf<Extract<OperationName, `service.${string}` | `job.${string}`>> = {
  "service.hello": (_input, { ledger }) => ({
    contractVersion: CONTRACT_VERSION,
    programVersion: product.version,
    hasLedger: ledger.stamp() !== null,
  }),
  "job.cancel": ({ jobId }, { cancel }) => ({ wasRunning: cancel(jobId) }),
};
