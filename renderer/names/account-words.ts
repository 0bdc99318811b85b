/** Accounts and entries in words. */
import { missingCase } from "../../app/ground/missing-case.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { AccountKind, AccountRef, EntryKind, JournalEntry } from "../../app/ledger/journal.ts";
import { ownerName, tankName } from "./entity-words.ts";
import { nameIn } from "../../app/words/named.ts";

const flightOrSortie = (plan: PlanSnapshot, key: string): string =>
  plan.flights.find((flight) => flight.key === key)?.name ??
  plan.sorties.find((sortie) => sortie.key === key)?.name ??
  key;

/** What each kind of account is called, alone. */
export const accountKindWords: Readonly<Record<AccountKind, string>> = {
  tank: "tank",
  source: "source",
  transit: "under way",
  "boil-off": "boil-off",
  "in-flight loss": "in-flight loss",
  "handover loss": "handover loss",
  residual: "left aboard",
  vented: "vented",
  burned: "burned",
  consumed: "consumed",
  unaccounted: "unaccounted",
};

/** "boil-off, Tarn", "Tarn hydrogen main", "aboard Packhorse 7". */
export const accountWords = (plan: PlanSnapshot, { kind, ownerId }: AccountRef): string => {
  switch (kind) {
    case "tank":
      return tankName(plan, ownerId);
    case "source":
      return nameIn(plan.sources, ownerId);
    case "transit":
      return `aboard ${flightOrSortie(plan, ownerId)}`;
    case "boil-off":
    case "handover loss":
    case "in-flight loss":
    case "residual":
    case "vented":
    case "burned":
    case "consumed":
    case "unaccounted":
      return `${accountKindWords[kind]}, ${ownerName(plan, ownerId)}`;
    default:
      return missingCase(kind);
  }
};

const entryWords: Readonly<Record<EntryKind, string>> = {
  opening: "Opening level",
  departure: "Departure",
  arrival: "Arrival",
  "loss of flight": "Loss of flight",
  loading: "Loading",
  return: "Return",
  transfer: "Transfer",
  vent: "Vent",
  reading: "Gauge reading",
  closing: "Closing",
  reversal: "Reversal",
};

/** "Arrival: Packhorse 7". */
export const entryTitle = (plan: PlanSnapshot, entry: JournalEntry): string =>
  entry.subjectKey === null
    ? entryWords[entry.kind]
    : `${entryWords[entry.kind]}: ${flightOrSortie(plan, entry.subjectKey)}`;
