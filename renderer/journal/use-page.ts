/** A page of the journal, fetched anew with the filter and with every revision. */
import { useEffect, useState } from "react";
import type { JournalPage } from "../../app/ledger/ledger-view.ts";
import { useApp, useSession } from "../state/use-session.ts";
import type { JournalFilter } from "./journal-filter.ts";

/** The page shown last stays until the next one is there; null before the first. */
export const useJournalPage = (filter: JournalFilter): JournalPage | null => {
  const session = useSession();
  const revision = useApp((state) => state.ledger?.revision);
  const [page, setPage] = useState<JournalPage | null>(null);
  useEffect(() => {
    let isWanted = true;
    void session.ask("journal.page", filter).then((found) => {
      if (isWanted && found !== null) setPage(found);
    });
    return () => {
      isWanted = false;
    };
    // eslint-disable-next-line react/exhaustive-effect-dependencies -- each revision is fetched anew
  }, [session, filter, revision]);
  return page;
};
