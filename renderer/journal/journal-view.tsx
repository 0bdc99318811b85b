/** The journal: entries with their sums, readings, edits. */
import { useState } from "react";
import { useAction } from "../actions/use-actions.ts";
import { useApp } from "../state/use-session.ts";
import { Tabs } from "../widgets/tabs.tsx";
import { ViewSheet } from "../widgets/view-sheet.tsx";
import { EntrySheet } from "./entry-sheet.tsx";
import { HistorySheet } from "./history-sheet.tsx";
import { ReadingSheet } from "./reading-sheet.tsx";
import "./journal.css";

export const JournalView = () => {
  const current = useApp((state) => state.current);
  const [shown, setShown] = useState("entries");
  useAction("edit.history", () => setShown("edits"));
  if (current === null) return null;
  return (
    <ViewSheet>
      <Tabs
        label="Journal"
        shown={shown}
        onShow={setShown}
        sheets={[
          { id: "entries", title: "Entries", content: <EntrySheet plan={current.plan} /> },
          { id: "readings", title: "Readings", content: <ReadingSheet view={current.view} /> },
          { id: "edits", title: "Edits", content: <HistorySheet /> },
        ]}
      />
    </ViewSheet>
  );
};
