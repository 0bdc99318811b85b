/** The ledger shown to others: read, searched and printed as ever, and not changed, until the one who shows ends it. */
import type { Failure } from "../../app/ground/failure.ts";
import type { LedgerInfo } from "../../app/ledger/ledger-view.ts";
import type { AppState } from "./app-state.ts";

const WORDS = "shown to others";

/** The ledger as the page is to take it. A file that cannot be written says why itself. */
export const asShown = (ledger: LedgerInfo, { isShownOnly }: Pick<AppState, "isShownOnly">): LedgerInfo =>
  isShownOnly && ledger.readOnlyBecause === null ? { ...ledger, readOnlyBecause: WORDS } : ledger;

/** Why an edit is refused; null: it is not for this. */
export const shownOnlyRefusal = ({ isShownOnly }: Pick<AppState, "isShownOnly">): Failure | null =>
  isShownOnly
    ? {
        code: "refused",
        message: "The ledger is shown to others, so nothing can be changed. Turn off File, Read-only, to edit it.",
        field: null,
      }
    : null;

const KEY = "coldstock.shown-only";

/** Kept for this window alone, so that loading the page anew does not end it unseen. */
export const rememberedShownOnly = (): boolean => sessionStorage.getItem(KEY) === "yes";

export const rememberShownOnly = (isOn: boolean): void => sessionStorage.setItem(KEY, isOn ? "yes" : "no");
