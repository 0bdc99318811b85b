/** The journal as it stands. */
import type { HandlersOf } from "../context.ts";

export const journalHandlers: HandlersOf<"journal.entry" | "journal.page"> = {
  "journal.entry": ({ entryId }, { session }) => session.store().entry(entryId),
  "journal.page": (filter, { session }) => session.store().journal(filter),
};
