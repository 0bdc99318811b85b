/** Every step of editing: who, when, why, what; undo and redo from here. */
import { useEffect, useMemo, useState } from "react";
import type { EditRecord } from "../../app/ledger/ledger-view.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import type { Column } from "../widgets/data-table/column.ts";
import { DataTable } from "../widgets/data-table/data-table.tsx";
import { instantColumn } from "../widgets/instant-column.ts";
import { READ_ONLY, firstOf } from "../widgets/unable.ts";

const MAX_STEPS = 1000;
const MINUTE_MS = 60_000;

const stateWords: Readonly<Record<EditRecord["state"], string>> = {
  done: "in force",
  undone: "undone",
  replaced: "undone, superseded",
};

const columns: readonly Column<EditRecord>[] = [
  instantColumn("at", "When", ({ at }) => Math.floor(at / MINUTE_MS) * MINUTE_MS),
  { id: "label", heading: "Step", value: ({ label }) => label },
  { id: "state", heading: "Status", value: ({ state }) => stateWords[state] },
  { id: "author", heading: "By", value: ({ author }) => author },
  { id: "count", heading: "Changes", isNumber: true, value: ({ changes }) => changes.length },
  { id: "reason", heading: "Why", isSentence: true, value: ({ reason }) => reason },
];

const useHistory = (): readonly EditRecord[] => {
  const session = useSession();
  const revision = useApp((state) => state.ledger?.revision);
  const [steps, setSteps] = useState<readonly EditRecord[]>([]);
  useEffect(() => {
    let isWanted = true;
    void session.ask("plan.history", { offset: 0, limit: MAX_STEPS }).then((found) => {
      if (isWanted && found !== null) setSteps(found);
    });
    return () => {
      isWanted = false;
    };
    // eslint-disable-next-line react/exhaustive-effect-dependencies -- each revision is fetched anew
  }, [session, revision]);
  return steps;
};

const changesOf = ({ changes }: EditRecord) => (
  <ul>
    {changes.map((line) => (
      <li key={line}>{line}</li>
    ))}
  </ul>
);

export const HistorySheet = () => {
  const session = useSession();
  const steps = useHistory();
  const ledger = useApp((state) => state.ledger);
  const isReadOnly = ledger?.readOnlyBecause !== null;
  const undo = ledger?.undoLabel ?? null;
  const redo = ledger?.redoLabel ?? null;
  const rows = useMemo(() => [...steps], [steps]);
  return (
    <DataTable
      caption={steps.length < MAX_STEPS ? "Edits, newest first" : "The newest 1 000 edits"}
      columns={columns}
      rows={rows}
      rowId={({ id }) => String(id)}
      tone={({ state }) => (state === "done" ? undefined : "faint")}
      detail={changesOf}
      empty="Nothing has been changed yet."
      tools={
        <>
          <Button
            unable={firstOf([isReadOnly, READ_ONLY], [undo === null, "There is nothing to undo."])}
            onPress={() => void session.undo()}
          >
            {undo === null ? "Undo" : `Undo ${undo}`}
          </Button>
          <Button
            unable={firstOf([isReadOnly, READ_ONLY], [redo === null, "There is nothing to redo."])}
            onPress={() => void session.redo()}
          >
            {redo === null ? "Redo" : `Redo ${redo}`}
          </Button>
        </>
      }
    />
  );
};
