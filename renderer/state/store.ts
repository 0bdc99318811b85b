/** A value that can be watched: the smallest store that React's useSyncExternalStore asks for. */

export interface Store<T> {
  readonly get: () => T;
  /** Merges; does nothing, and tells nobody, if every value is as it was. */
  readonly set: (patch: Partial<T>) => void;
  /** Calls after each change; the answer stops it. */
  readonly subscribe: (listener: () => void) => () => void;
}

export const createStore = <T extends object>(initial: T): Store<T> => {
  let state = initial;
  const listeners = new Set<() => void>();
  return {
    get: () => state,
    set: (patch) => {
      const keys = Object.keys(patch) as (keyof T)[];
      if (keys.every((key) => Object.is(state[key], patch[key]))) return;
      state = { ...state, ...patch };
      for (const listener of listeners) listener();
    },
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
};
