/** The registry of actions, for React. */
import { createContext, useContext, useEffect, useRef, useSyncExternalStore } from "react";
import type { ActionId, ActionState } from "../../app/contract/actions.ts";
import type { ActionRegistry, Handler } from "./registry.ts";

export const ActionsContext = createContext<ActionRegistry | null>(null);

export const useActions = (): ActionRegistry => {
  const registry = useContext(ActionsContext);
  if (registry === null) throw new Error("A view was shown outside the shell.");
  return registry;
};

/** Carries out an action while the component is shown: `useAction("plan.addFlight", add, { unable })`. */
export const useAction = (id: ActionId, run: () => void, state: Partial<Omit<Handler, "run">> = {}): void => {
  const registry = useActions();
  const newest = useRef(run);
  useEffect(() => {
    newest.current = run;
  });
  const { unable = null, isOn = false, label = null } = state;
  useEffect(
    () => registry.register(id, { run: () => newest.current(), unable, isOn, label }),
    [registry, id, unable, isOn, label],
  );
};

/** Every action of the page as it stands, for menus. */
export const useActionStates = (): readonly ActionState[] => {
  const registry = useActions();
  return useSyncExternalStore(registry.subscribe, registry.states);
};
