/**
 * A level measured while a metered handover runs holds what had flowed by then: the books take the flow in two parts, one up
 * to the reading and one after it.
 */
import type { JournalEntry } from "../ledger/journal.ts";
import type { Recorder } from "./recorder.ts";

/** The part of a flow's grams up to an instant within it. */
export const gramsUntil = (entry: Pick<JournalEntry, "at" | "sinceAt">, grams: number, at: number): number => {
  const since = entry.sinceAt ?? entry.at;
  return Math.round((grams * (Math.min(at, entry.at) - since)) / (entry.at - since));
};

/** The entry itself, or in its place one for each stretch between the instants that lie within it. */
export const splitFlow = (
  entry: JournalEntry,
  instants: readonly number[],
  newId: Recorder["newId"],
): readonly JournalEntry[] => {
  const { sinceAt } = entry;
  if (sinceAt === undefined) return [entry];
  const within = [...new Set(instants)].filter((at) => sinceAt < at && at < entry.at).toSorted((a, b) => a - b);
  if (within.length === 0) return [entry];
  return [...within, entry.at].map((at, n) => {
    const fromAt = within[n - 1] ?? sinceAt;
    const postings = entry.postings.map((posting) => ({
      ...posting,
      grams:
        Math.sign(posting.grams) *
        (gramsUntil(entry, Math.abs(posting.grams), at) - gramsUntil(entry, Math.abs(posting.grams), fromAt)),
    }));
    return { ...entry, id: newId(), sinceAt: fromAt, at, postings };
  });
};
