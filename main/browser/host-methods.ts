/** What the browser host does for its page beside the contract. The dialogs are the browser's own (renderer/bridge). */
import type { HostMethod } from "../../app/contract/host-input.ts";
import { basename } from "node:path";
import { openDemonstration } from "../page/demonstration.ts";
import { type HostMethods, valueOf } from "../page/door.ts";
import { copyName } from "../page/ledger-name.ts";
import type { LedgerTokens } from "../page/ledger-tokens.ts";
import type { Service } from "../service/service.ts";
import type { OtherLedger } from "./other-ledger.ts";
import { ledgersIn, newLedgerPath } from "./data-folder.ts";

type BrowserMethod = Extract<
  HostMethod,
  "ledgers" | "openLedger" | "createLedger" | "openDemonstration" | "saveCopy" | "previewMerge" | "takeMerge"
>;

export const browserMethods = (
  service: Service,
  folder: string,
  tokens: LedgerTokens,
  other: OtherLedger,
): HostMethods<BrowserMethod> => ({
  ledgers: () => ledgersIn(folder, tokens),
  openLedger: async (token) => valueOf(await service.call("ledger.open", { path: tokens.pathOf(token) })),
  createLedger: async (programme, copyOf) =>
    valueOf(await service.call("ledger.create", { path: newLedgerPath(folder, programme), programme, copyOf })),
  saveCopy: async () => {
    const { fileName } = valueOf(await service.call("ledger.info", {}));
    const path = newLedgerPath(folder, copyName(fileName));
    valueOf(await service.call("ledger.copy", { path }));
    return basename(path);
  },
  previewMerge: async (token, choices, jobId) =>
    valueOf(await service.call("merge.preview", { path: other.pathOf(token), ...choices }, jobId)),
  takeMerge: async (token, choices, fingerprint) =>
    valueOf(await service.call("merge.take", { path: other.pathOf(token), ...choices, fingerprint })),
  openDemonstration: async (which) => valueOf(await openDemonstration(which, folder, service.dispatch)),
});
