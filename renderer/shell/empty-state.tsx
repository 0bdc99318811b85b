/** What is shown when no ledger is open: the ways to come to one; and while the service starts, or does not answer. */
import { CAUTION } from "../../app/words/caution.ts";
import { useActions } from "../actions/use-actions.ts";
import { RecentList, useRecent } from "../start/recent-list.tsx";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";

export const EmptyState = () => {
  const phase = useApp((state) => state.phase);
  const failure = useApp((state) => state.failure);
  const session = useSession();
  if (phase === "starting") return <main id="view" className="empty" tabIndex={-1} aria-busy="true" />;
  return (
    <main id="view" className="empty" tabIndex={-1}>
      <div className="empty-sheet">
        {phase === "failed" ? (
          <>
            <h1>The ledger cannot be read</h1>
            <p role="alert">{failure?.message}</p>
            <p>
              <Button look="primary" onPress={() => void session.refresh()}>
                Try again
              </Button>
            </p>
            <h2>Or open another</h2>
          </>
        ) : (
          <>
            <h1>No ledger is open</h1>
            <p>
              A ledger is one file: a programme&rsquo;s depots, craft, plans and records. Open one, make an empty one,
              or look at a demonstration, whose every name and number is invented.
            </p>
          </>
        )}
        <Ways />
        <p className="caution">{CAUTION}</p>
      </div>
    </main>
  );
};

const Ways = () => {
  const session = useSession();
  const actions = useActions();
  const known = useRecent() ?? [];
  return (
    <>
      <p className="empty-ways">
        <Button look="primary" onPress={() => actions.run("file.demo.tarn")}>
          Open demonstration: Tarn
        </Button>
        <Button onPress={() => actions.run("file.demo.beck")}>Open demonstration: Beck</Button>
        <Button onPress={() => actions.run("file.open")}>Open…</Button>
        <Button onPress={() => actions.run("file.new")}>New ledger…</Button>
        <Button onPress={() => actions.run("file.import.json")}>Import ledger (JSON)…</Button>
      </p>
      {known.length > 0 && (
        <>
          <h2>Recent ledgers</h2>
          <RecentList
            known={known.slice(0, 8)}
            onOpen={({ token }) => void session.open(() => session.client.host.openLedger(token))}
          />
        </>
      )}
    </>
  );
};
