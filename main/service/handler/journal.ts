/** The journal as it stands. */
import type { HandlersOf } from "../context.ts";

export const journalHandlers: HandlersOf<"journal.entry" | "journal.page"> = {
  "journal.entry": ({ entryId }, { ledger }) => ledger.store().entry(entryId),
  "journal.page": (filter, { ledger }) => ledger.store().journal(filter),
};
