/** Ledgers opened before, each with where it is and when it changed: one press opens it. */
import { useEffect, useState } from "react";
import type { LedgerChoice } from "../../app/contract/bridge.ts";
import { formatDate } from "../format/instant.ts";
import { useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import "./recent-list.css";

/** As the host knows them now; null: it has not answered. */
export const useRecent = (): readonly LedgerChoice[] | null => {
  const session = useSession();
  const [known, setKnown] = useState<readonly LedgerChoice[] | null>(null);
  useEffect(() => {
    let isShown = true;
    void session.client.host.ledgers().then((reply) => {
      if (isShown) setKnown(reply.ok ? reply.value : []);
    });
    return () => {
      isShown = false;
    };
  }, [session]);
  return known;
};

interface RecentListProps {
  readonly known: readonly LedgerChoice[];
  readonly onOpen: (choice: LedgerChoice) => void;
}

export const RecentList = ({ known, onOpen }: RecentListProps) => (
  <ul className="recent-list">
    {known.map((choice) => (
      <li key={choice.token}>
        <Button look="link" onPress={() => onOpen(choice)}>
          {choice.name}
        </Button>
        <span>{choice.place}</span>
        {choice.modifiedAt !== null && <span className="figures">{formatDate(choice.modifiedAt)}</span>}
      </li>
    ))}
  </ul>
);
