/**
 * What happened without moving anything of the books: a flight that left empty, one that was lost before it loaded. No
 * entry says it, only the status of the row.
 */
import type { Flight } from "../entity/flight.ts";
import type { Sortie } from "../entity/sortie.ts";
import { impliedBy } from "../ledger/rules/recorded-status-rule.ts";
import type { Side } from "./side.ts";

export interface StatusNews {
  readonly kind: "flight" | "sortie";
  readonly key: string;
  readonly row: Flight | Sortie;
}

/** How far a status is along; plans are at 0. */
const ranks: Readonly<Record<string, number>> = { departed: 1, arrived: 2, lost: 2, flown: 2 };

export const rankOf = (status: string): number => ranks[status] ?? 0;

/** The furthest status that entries in force imply, by key. */
const impliedRanks = (side: Side): ReadonlyMap<string, number> => {
  const found = new Map<string, number>();
  for (const { entry } of side.inForce) {
    const rank = impliedBy[entry.kind]?.rank;
    if (entry.subjectKey === null || rank === undefined) continue;
    found.set(entry.subjectKey, Math.max(rank, found.get(entry.subjectKey) ?? 0));
  }
  return found;
};

const rowsByKey = (side: Side, kind: StatusNews["kind"]): ReadonlyMap<string, Flight | Sortie> => {
  const rows: readonly (Flight | Sortie)[] = side.document.entities[kind];
  const found = new Map<string, Flight | Sortie>();
  for (const row of rows) {
    const known = found.get(row.key);
    if (known === undefined || rankOf(row.status) > rankOf(known.status)) found.set(row.key, row);
  }
  return found;
};

const newsOfKind = (mine: Side, other: Side, kind: StatusNews["kind"]): StatusNews[] => {
  const byEntries = impliedRanks(mine);
  const others = rowsByKey(other, kind);
  return [...rowsByKey(mine, kind)].flatMap(([key, row]) => {
    const rank = rankOf(row.status);
    if (rank <= (byEntries.get(key) ?? 0)) return [];
    const there = others.get(key)?.status ?? "planned";
    return there === row.status || rankOf(there) > rank ? [] : [{ kind, key, row }];
  });
};

export const statusNews = (
  ours: Side,
  theirs: Side,
): {
  readonly ours: readonly { did: "status"; status: StatusNews }[];
  readonly theirs: readonly { did: "status"; status: StatusNews }[];
} => {
  const of = (mine: Side, other: Side) =>
    [...newsOfKind(mine, other, "flight"), ...newsOfKind(mine, other, "sortie")].map((status) => ({
      did: "status" as const,
      status,
    }));
  return { ours: of(ours, theirs), theirs: of(theirs, ours) };
};
