/** The journal: entries with their sums, readings, edits. */
import { useSyncExternalStore } from "react";
import { useApp } from "../state/use-session.ts";
import { Tabs } from "../widgets/tabs.tsx";
import { ViewSheet } from "../widgets/view-sheet.tsx";
import { EntrySheet } from "./entry-sheet.tsx";
import { HistorySheet } from "./history-sheet.tsx";
import { ReadingSheet } from "./reading-sheet.tsx";
import { shownSheet } from "./shown-sheet.ts";
import "./journal.css";

export const JournalView = () => {
  const current = useApp((state) => state.current);
  const shown = useSyncExternalStore(shownSheet.subscribe, () => shownSheet.get().sheet);
  if (current === null) return null;
  return (
    <ViewSheet>
      <Tabs
        label="Journal"
        shown={shown}
        onShow={(sheet) => shownSheet.set({ sheet })}
        sheets={[
          { id: "entries", title: "Entries", content: <EntrySheet plan={current.plan} /> },
          { id: "readings", title: "Readings", content: <ReadingSheet view={current.view} /> },
          { id: "edits", title: "Edits", content: <HistorySheet /> },
        ]}
      />
    </ViewSheet>
  );
};
