/** The page's session and state, for React. */
import { createContext, useContext, useSyncExternalStore } from "react";
import type { AppState } from "./app-state.ts";
import type { Session } from "./session.ts";

export const SessionContext = createContext<Session | null>(null);

/** What the page can do. Throws outside the shell. */
export const useSession = (): Session => {
  const session = useContext(SessionContext);
  if (session === null) throw new Error("A view was shown outside the shell.");
  return session;
};

/** A part of the state; the component is shown again when that part changes. Select what exists, make nothing new. */
export const useApp = <T>(select: (state: AppState) => T): T => {
  const { store } = useSession();
  return useSyncExternalStore(store.subscribe, () => select(store.get()));
};
