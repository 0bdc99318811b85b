/** Writes the invented records of a demonstration as balanced journal entries, keeping the booked level of every tank. */
import { levelAfter } from "../storage/level.ts";
import { ratePieces } from "../storage/loss-rate.ts";
import type { LossPeriod } from "../entity/loss-period.ts";
import type { AccountKind, EntryKind, JournalEntry, Posting, Reading } from "../ledger/journal.ts";
import { toGrams, toKg } from "../ledger/journal.ts";
import { DAY_MS } from "../ground/quantity.ts";

/** A posting in kg, before it is booked in grams. */
export interface Move {
  readonly kind: AccountKind;
  readonly ownerId: string;
  readonly propellantId: string;
  readonly kg: number;
}

interface Stated {
  readonly at: number;
  grams: number;
}

const AUTHOR = "demonstration";

/** Collects entries and readings in the order of time. */
export const createRecorder = (
  lossPeriods: readonly LossPeriod[],
  depotId: string,
  propellantOf: ReadonlyMap<string, string>,
) => {
  const entries: JournalEntry[] = [];
  const readings: Reading[] = [];
  /** Level by the model at the last event of each tank. */
  const levels = new Map<string, Stated>();
  /** Lost by the model since the last stated level, not yet booked. */
  const unbooked = new Map<string, number>();

  const carry = (tankId: string, at: number): Stated => {
    const from = levels.get(tankId) ?? { at, grams: 0 };
    let kg = toKg(from.grams);
    const periods = lossPeriods.filter((period) => period.tankId === tankId && period.planCaseId === null);
    if (at > from.at)
      for (const piece of ratePieces(periods, from.at, at, { kPerDay: 0, cKgPerDay: 0 }))
        kg = levelAfter(kg, piece.kPerDay, piece.cKgPerDay, (piece.untilAt - piece.fromAt) / DAY_MS);
    const now = { at, grams: toGrams(kg) };
    unbooked.set(tankId, (unbooked.get(tankId) ?? 0) + from.grams - now.grams);
    levels.set(tankId, now);
    return now;
  };

  const book = (
    at: number,
    kind: EntryKind,
    subjectKey: string | null,
    note: string,
    postings: readonly Posting[],
  ): string => {
    const id = `record-${String(entries.length + 1).padStart(3, "0")}`;
    entries.push({
      id,
      at,
      kind,
      subjectKey,
      reversesId: null,
      note,
      author: AUTHOR,
      recordedAt: at,
      postings: [...postings],
    });
    return id;
  };

  return {
    entries,
    readings,
    /** Level of a tank by the model, kg. */
    levelKg: (tankId: string, at: number): number => toKg(carry(tankId, at).grams),
    /** Books moves of mass; each propellant must sum to zero to the gram. */
    move: (at: number, kind: EntryKind, subjectKey: string | null, note: string, moves: readonly Move[]): void => {
      const postings = moves
        .map(({ kind: account, ownerId, propellantId, kg }) => ({
          account: { kind: account, ownerId },
          propellantId,
          grams: toGrams(kg),
        }))
        .filter(({ grams }) => grams !== 0);
      for (const { account, grams } of postings) if (account.kind === "tank") carry(account.ownerId, at).grams += grams;
      book(at, kind, subjectKey, note, postings);
    },
    /** A gauge reading, off the model by `errorKg`, taken into the books: boil-off by the model, the rest unaccounted. */
    read: (at: number, tankId: string, errorKg: number, sigmaKg: number): void => {
      const now = carry(tankId, at);
      const errorGrams = toGrams(errorKg);
      const lostGrams = unbooked.get(tankId) ?? 0;
      const propellantId = propellantOf.get(tankId) ?? "";
      const line = (kind: AccountKind, ownerId: string, grams: number): Posting => ({
        account: { kind, ownerId },
        propellantId,
        grams,
      });
      const postings = [
        line("tank", tankId, errorGrams - lostGrams),
        line("boil-off", depotId, lostGrams),
        line("unaccounted", depotId, -errorGrams),
      ].filter(({ grams }) => grams !== 0);
      now.grams += errorGrams;
      unbooked.set(tankId, 0);
      const entryId = postings.length > 1 ? book(at, "reading", null, "monthly gauging", postings) : null;
      readings.push({
        id: `reading-${tankId}-${new Date(at).toISOString().slice(0, 10)}`,
        tankId,
        at,
        massKg: toKg(now.grams),
        sigmaKg,
        entryId,
        isWithdrawn: false,
        note: "",
      });
    },
  };
};
