/** What sorties under way left with, by the records of their loading. */
import type { Entity } from "../entity/entities.ts";
import type { LeftWith } from "../entity/plan.ts";
import { entryInForce } from "./entries-of.ts";
import { type JournalEntry, toKg } from "./journal.ts";
import type { LedgerBooks } from "./books.ts";

/** Grams by propellant of an entry's lines of some kind. */
const gramsOf = (entry: JournalEntry, isMeant: (posting: JournalEntry["postings"][number]) => boolean) => {
  const grams = new Map<string, number>();
  for (const posting of entry.postings)
    if (isMeant(posting)) grams.set(posting.propellantId, (grams.get(posting.propellantId) ?? 0) + posting.grams);
  return grams;
};

/** What every sortie of these that has departed left with. `tanks`: those of the ledger, landers' among them. */
export const leftWithOf = (
  sorties: readonly Entity<"sortie">[],
  tanks: readonly Entity<"tank">[],
  books: Pick<LedgerBooks, "journal">,
): readonly LeftWith[] => {
  const depotTanks = new Set(tanks.flatMap(({ id, ownerKind }) => (ownerKind === "depot" ? [id] : [])));
  return sorties
    .filter(({ status }) => status === "departed")
    .flatMap(({ id: sortieId, key }): readonly LeftWith[] => {
      const entry = entryInForce(books, key, "loading");
      if (entry === null) return [];
      const aboard = gramsOf(entry, ({ account }) => account.kind === "transit");
      const taken = gramsOf(
        entry,
        ({ account }) =>
          account.kind === "handover loss" || (account.kind === "tank" && depotTanks.has(account.ownerId)),
      );
      const propellantIds = new Set([...aboard.keys(), ...taken.keys()]);
      return [...propellantIds].map((propellantId) => ({
        sortieId,
        propellantId,
        massKg: toKg(aboard.get(propellantId) ?? 0),
        givenKg: toKg(-(taken.get(propellantId) ?? 0)),
      }));
    });
};
