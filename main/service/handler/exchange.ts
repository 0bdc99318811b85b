/** A ledger in and out as a document. */
import { parseDocument } from "../../../app/exchange/ledger-document.ts";
import { ledgerInfo } from "../../../app/ledger/plan-view.ts";
import type { HandlersOf } from "../context.ts";

export const exchangeHandlers: HandlersOf<"ledger.export" | "ledger.import"> = {
  "ledger.export": (_input, { session }) => session.store().document(),
  "ledger.import": ({ path, text }, { session, files }) => {
    const document = parseDocument(text);
    return session.replace(() => files.fromDocument(path, document), ledgerInfo);
  },
};
