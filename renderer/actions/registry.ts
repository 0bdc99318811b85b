/** Who carries out which action now. Views announce what they can do while they are on screen; the last one counts. */
import { reasonWithoutHandler } from "./reasons.ts";
import { type Action, type ActionId, type ActionState, actions } from "../../app/contract/actions.ts";

export interface Handler {
  readonly run: () => void;
  /** Why it cannot be done now, in words; null: it can. */
  readonly unable: string | null;
  /** For actions that are on or off. */
  readonly isOn: boolean;
  /** Shown instead of the table's label; null: the table's. */
  readonly label: string | null;
}

export interface ActionRegistry {
  /** Lays a handler over those before; the answer takes it away again. */
  readonly register: (id: ActionId, handler: Handler) => () => void;
  /** Does it, if it can be done; answers whether it was. */
  readonly run: (id: ActionId) => boolean;
  readonly stateOf: (id: ActionId) => ActionState;
  /** Why it cannot be done now, in words; null: it can. */
  readonly reasonOf: (id: ActionId) => string | null;
  /** Every action that the page carries out, as it stands now; the same array until something changes. */
  readonly states: () => readonly ActionState[];
  readonly subscribe: (listener: () => void) => () => void;
}

/** The line of the table for an id. */
export const actionOf = (id: ActionId): Action => {
  const found: Action | undefined = actions.find((action) => action.id === id);
  if (found === undefined) throw new Error(`There is no action "${id}".`);
  return found;
};

const isSame = (a: ActionState, b: ActionState | undefined): boolean =>
  a.isEnabled === b?.isEnabled && a.isOn === b.isOn && a.label === b.label;

export const createActionRegistry = (): ActionRegistry => {
  const handlers = new Map<ActionId, Handler[]>();
  const listeners = new Set<() => void>();
  let states: readonly ActionState[] = [];
  let isTelling = false;

  const top = (id: ActionId): Handler | undefined => handlers.get(id)?.at(-1);
  const stateOf = (id: ActionId): ActionState => {
    const handler = top(id);
    return {
      id,
      isEnabled: handler?.unable === null,
      isOn: handler?.isOn ?? false,
      label: handler?.label ?? null,
    };
  };
  const renew = (): void => {
    const fresh = actions.filter((action) => action.by === "page").map((action) => stateOf(action.id));
    if (fresh.length === states.length && fresh.every((state, i) => isSame(state, states[i]))) return;
    states = fresh;
    for (const listener of listeners) listener();
  };
  // Handlers come and go in bursts, once per rendering: told once after the burst.
  const tell = (): void => {
    if (isTelling) return;
    isTelling = true;
    queueMicrotask(() => {
      isTelling = false;
      renew();
    });
  };

  return {
    register: (id, handler) => {
      handlers.set(id, [...(handlers.get(id) ?? []), handler]);
      tell();
      return () => {
        handlers.set(
          id,
          (handlers.get(id) ?? []).filter((other) => other !== handler),
        );
        tell();
      };
    },
    run: (id) => {
      const handler = top(id);
      if (handler?.unable !== null) return false;
      handler.run();
      return true;
    },
    stateOf,
    reasonOf: (id) => {
      const handler = top(id);
      return handler === undefined ? reasonWithoutHandler(id) : handler.unable;
    },
    states: () => states,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
};
