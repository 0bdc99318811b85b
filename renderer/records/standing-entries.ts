/** The entries of one flight or sortie that are in force: neither reversed nor reversals. */
import type { JournalEntry } from "../../app/ledger/journal.ts";
import type { Session } from "../state/session.ts";

/** More than any one flight or sortie has. */
const MAX_ENTRIES = 1000;

/** Newest first. A failure is shown as a notice, and there are none. */
export const standingEntries = async (
  session: Pick<Session, "ask">,
  subjectKey: string,
): Promise<readonly JournalEntry[]> => {
  const page = await session.ask("journal.page", {
    fromAt: null,
    untilAt: null,
    accountKind: null,
    ownerId: null,
    propellantId: null,
    subjectKey,
    text: "",
    offset: 0,
    limit: MAX_ENTRIES,
  });
  const entries = page?.entries ?? [];
  const gone = new Set(entries.map(({ reversesId }) => reversesId));
  return entries.filter(({ id, kind }) => kind !== "reversal" && !gone.has(id));
};
