/** Builds the postings of an entry in whole grams, so that each propellant sums to zero. */
import { PlanningError } from "../ground/failure.ts";
import type { Tank } from "../entity/tank.ts";
import { type AccountKind, type EntryKind, type JournalEntry, type Posting, toGrams } from "../ledger/journal.ts";
import type { Recorder } from "./recorder.ts";

/** One line: grams into (+) or out of (−) an account. */
export const line = (kind: AccountKind, ownerId: string, propellantId: string, grams: number): Posting => ({
  account: { kind, ownerId },
  propellantId,
  grams: grams === 0 ? 0 : grams,
});

/**
 * Lines on the same account and propellant made one; those of nothing left out, but for tanks, whose level they state.
 * A level found as booked leaves one line: then a line of nothing stays to be its second.
 */
export const gathered = (lines: readonly Posting[]): Posting[] => {
  const sums = new Map<string, Posting>();
  for (const posting of lines) {
    const key = `${posting.account.kind}/${posting.account.ownerId}/${posting.propellantId}`;
    sums.set(key, { ...posting, grams: posting.grams + (sums.get(key)?.grams ?? 0) });
  }
  const all = [...sums.values()];
  const kept = all.filter((posting) => posting.grams !== 0 || posting.account.kind === "tank");
  return kept.length === 1 ? [...kept, ...all.filter((posting) => !kept.includes(posting)).slice(0, 1)] : kept;
};

/** A tank's level brought from the books to what was found: lost by the model, and the rest that nothing accounts for. */
export const statingLines = (tank: Tank, bookGrams: number, modelGrams: number, foundGrams: number): Posting[] => [
  line("tank", tank.id, tank.propellantId, foundGrams - bookGrams),
  line("boil-off", tank.ownerId, tank.propellantId, bookGrams - modelGrams),
  line("unaccounted", tank.ownerId, tank.propellantId, modelGrams - foundGrams),
];

/** Masses by propellant in grams, each propellant once. Throws "invalid input" if one comes twice. */
export const gramsByPropellant = (
  lines: readonly { readonly propellantId: string; readonly massKg: number }[],
  field: string,
): ReadonlyMap<string, number> => {
  const grams = new Map<string, number>();
  lines.forEach(({ propellantId, massKg }, i) => {
    if (grams.has(propellantId))
      throw new PlanningError("invalid input", "This propellant stands here twice.", `${field}.${i}.propellantId`);
    grams.set(propellantId, toGrams(massKg));
  });
  return grams;
};

const LEAST_POSTINGS = 2;

/** An entry as it is to be written; null if nothing moves. */
export const entryOf = (
  what: {
    readonly at: number;
    readonly sinceAt?: number;
    readonly kind: EntryKind;
    readonly subjectKey?: string;
    readonly note: string;
  },
  lines: readonly Posting[],
  recorder: Recorder,
): JournalEntry | null => {
  const postings = gathered(lines);
  if (postings.length < LEAST_POSTINGS) return null;
  return {
    id: recorder.newId(),
    at: what.at,
    ...(what.sinceAt === undefined ? {} : { sinceAt: what.sinceAt }),
    kind: what.kind,
    subjectKey: what.subjectKey ?? null,
    reversesId: null,
    note: what.note,
    author: recorder.author,
    recordedAt: recorder.recordedAt,
    postings,
  };
};
