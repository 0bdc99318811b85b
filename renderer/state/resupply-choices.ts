/** What the person asks of the resupply search, ledger by ledger; kept between starts. */
import { useSyncExternalStore } from "react";
import { type ResupplyAsked, resupplyAsked, usualAsked } from "../../app/resupply/asked.ts";
import { createStore } from "./store.ts";
import { useApp } from "./use-session.ts";

const KEY = "coldstock.resupply";
/** So many ledgers are remembered; the one that was not looked at longest is forgotten first. */
const MAX_LEDGERS = 30;

type ByLedger = Readonly<Record<string, ResupplyAsked>>;

/** What cannot be read, or is of an older form, is left out. */
const remembered = (): ByLedger => {
  try {
    const stored: unknown = JSON.parse(localStorage.getItem(KEY) ?? "{}");
    if (typeof stored !== "object" || stored === null) return {};
    return Object.fromEntries(
      Object.entries(stored).flatMap(([path, value]) => {
        const read = resupplyAsked.safeParse(value);
        return read.success ? [[path, read.data]] : [];
      }),
    );
  } catch {
    return {};
  }
};

const choices = createStore({ byLedger: remembered() });

export const setResupplyChoices = (path: string, change: Partial<ResupplyAsked>): void => {
  const { [path]: before = usualAsked, ...others } = choices.get().byLedger;
  const kept = Object.entries(others).slice(-(MAX_LEDGERS - 1));
  const byLedger = Object.fromEntries([...kept, [path, { ...before, ...change }]]);
  choices.set({ byLedger });
  localStorage.setItem(KEY, JSON.stringify(byLedger));
};

export const useResupplyChoices = (): ResupplyAsked => {
  const path = useApp((state) => state.ledger?.path ?? "");
  return useSyncExternalStore(choices.subscribe, () => choices.get().byLedger[path] ?? usualAsked);
};
