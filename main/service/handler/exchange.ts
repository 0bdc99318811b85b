/** A ledger in and out as a document. */
import { parseDocument } from "../../../app/exchange/ledger-document.ts";
import { ledgerInfo } from "../../../app/ledger/plan-view.ts";
import type { HandlersOf } from "../context.ts";

export const exchangeHandlers: HandlersOf<"ledger.export" | "ledger.import"> = {
  "ledger.export": (_input, { ledger }) => ledger.store().document(),
  "ledger.import": ({ path, text }, { ledger, files }) => {
    const document = parseDocument(text);
    const make = () => files.fromDocument(path, document);
    return ledger.replaceWithNew(make, ledgerInfo, () => files.takeAway(path));
  },
};
