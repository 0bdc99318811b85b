/** Which sheet of the journal is in front; kept while other views are shown, and set by the action "Edit history". */
import { createStore } from "../state/store.ts";

export const shownSheet = createStore({ sheet: "entries" });
