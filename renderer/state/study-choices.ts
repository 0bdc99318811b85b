/** What the person asks of a study, ledger by ledger; kept between starts. */
import { useSyncExternalStore } from "react";
import { type StudyAsked, studyAsked } from "../../app/study/question.ts";
import { createStore } from "./store.ts";
import { useApp } from "./use-session.ts";

const KEY = "coldstock.study";
/** So many ledgers are remembered; the one that was not looked at longest is forgotten first. */
const MAX_LEDGERS = 30;

/** What cannot be read, or is of an older form, is left out. */
const remembered = (): Readonly<Record<string, StudyAsked>> => {
  try {
    const stored: unknown = JSON.parse(localStorage.getItem(KEY) ?? "{}");
    if (typeof stored !== "object" || stored === null) return {};
    return Object.fromEntries(
      Object.entries(stored).flatMap(([path, value]) => {
        const read = studyAsked.safeParse(value);
        return read.success ? [[path, read.data]] : [];
      }),
    );
  } catch {
    return {};
  }
};

const choices = createStore({ byLedger: remembered() });

export const setStudyChoices = (path: string, asked: StudyAsked): void => {
  const { [path]: _before, ...others } = choices.get().byLedger;
  const kept = Object.entries(others).slice(-(MAX_LEDGERS - 1));
  const byLedger = Object.fromEntries([...kept, [path, asked]]);
  choices.set({ byLedger });
  localStorage.setItem(KEY, JSON.stringify(byLedger));
};

/** null: nothing was asked of this ledger yet. */
export const useStudyChoices = (): StudyAsked | null => {
  const path = useApp((state) => state.ledger?.path ?? "");
  return useSyncExternalStore(choices.subscribe, () => choices.get().byLedger[path] ?? null);
};
