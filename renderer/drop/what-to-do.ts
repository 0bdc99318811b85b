/** What a dropped file leads to, given what is open: one thing at once, a choice of several, or words why not. */
import { missingCase } from "../../app/ground/missing-case.ts";
import { type DroppedWhat, droppedWords, unreadWords, whatIsDropped } from "../../app/contract/dropped-file.ts";
import type { LedgerInfo } from "../../app/ledger/ledger-view.ts";

/** open: the ledger itself; import: a new ledger of a document; merge: its records into the open one; rows: into its plan. */
export type DropChoice = "open" | "import" | "merge" | "rows";

export type WhatToDo =
  | { readonly kind: "choices"; readonly choices: readonly DropChoice[] }
  | { readonly kind: "refused"; readonly words: string };

const refused = (words: string): WhatToDo => ({ kind: "refused", words });

const choicesOf = (what: DroppedWhat, canWrite: boolean): readonly DropChoice[] => {
  const merge: readonly DropChoice[] = canWrite ? ["merge"] : [];
  switch (what) {
    case "ledger":
      return ["open", ...merge];
    case "document":
      return ["import", ...merge];
    case "rows":
      return ["rows"];
    default:
      return missingCase(what);
  }
};

const oneAtATime = (count: number): string =>
  `These are ${count} files, and each is asked about by itself. Drop one at a time.`;

/** `names`: of the files that were let go together. */
export const whatToDo = (names: readonly string[], ledger: LedgerInfo | null): WhatToDo => {
  const [name] = names;
  if (name === undefined) return refused(`That is not a file. Drop ${droppedWords}.`);
  if (names.length > 1) return refused(oneAtATime(names.length));
  const what = whatIsDropped(name);
  if (what === null) return refused(unreadWords(name));
  const canWrite = ledger !== null && ledger.readOnlyBecause === null;
  if (what === "rows" && !canWrite)
    return refused(
      ledger === null
        ? `${name} has rows for a plan, and no ledger is open. Open one first.`
        : `${name} has rows for a plan, and this ledger is read-only: ${ledger.readOnlyBecause}.`,
    );
  if (what === "rows" && ledger?.planCases.length === 0)
    return refused(`${name} has rows for a plan, and this ledger has no plan case yet. Make one first.`);
  return { kind: "choices", choices: choicesOf(what, canWrite) };
};

/** What is said while a file is held over the window: its name is not known yet, its type perhaps. */
export const hoverWords = (types: readonly string[], ledger: LedgerInfo | null): string => {
  if (types.length > 1) return oneAtATime(types.length);
  const into = ledger === null ? "" : ` ${ledger.programme}`;
  switch (types[0]) {
    case "text/csv":
    case "text/tab-separated-values":
    case "text/calendar":
    case "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet":
      return ledger === null
        ? "Rows for a plan: open a ledger first."
        : `Its rows are shown before any of them goes into${into}.`;
    case "application/json":
      return ledger === null
        ? "An exported ledger becomes a new ledger."
        : `An exported ledger: import it as a new one, or merge its records into${into}. You will be asked.`;
    default:
      return ledger === null
        ? `Drop ${droppedWords}.`
        : `A ledger: open it, or merge its records into${into}. You will be asked. Also ${droppedWords.slice(droppedWords.indexOf(",") + 2)}.`;
  }
};
