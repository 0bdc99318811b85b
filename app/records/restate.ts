/**
 * A record that comes late changes what the books held before a level that they state already. That level was measured,
 * or closed, and stands: its entry is taken back and written anew with the loss that now leads to it.
 */
import { PlanningError } from "../contract/failure.ts";
import { type TankLosses, carryForward, isStating } from "../ledger/carry-forward.ts";
import type { EntitySet } from "../ledger/entities.ts";
import { findEntity } from "../ledger/entity-index.ts";
import type { Tank } from "../ledger/entity/tank.ts";
import { type JournalEntry, toGrams, toKg } from "../ledger/journal.ts";
import { lossesOf } from "../ledger/past.ts";
import type { TankMovement } from "../ledger/store.ts";
import { formatMinute } from "../ledger/time.ts";
import { gathered, line, statingLines } from "./postings.ts";
import type { RecordBooks, RecordDraft, Recorder } from "./recorder.ts";
import { recordedPlan } from "./subject.ts";

const BEFORE_ALL = -1;

const gramsOn = (entry: JournalEntry, tankId: string): number =>
  entry.postings.reduce(
    (sum, { account, grams }) => (account.kind === "tank" && account.ownerId === tankId ? sum + grams : sum),
    0,
  );

const tanksOf = (entry: JournalEntry): string[] => [
  ...new Set(entry.postings.filter(({ account }) => account.kind === "tank").map(({ account }) => account.ownerId)),
];

/** The movements without one that an entry made; entries alike in instant, kind and mass are interchangeable here. */
const without = (movements: readonly TankMovement[], entry: JournalEntry, tankId: string): TankMovement[] => {
  const grams = gramsOn(entry, tankId);
  const index = movements.findLastIndex(
    (m) => m.at === entry.at && m.kind === entry.kind && toGrams(m.massKg) === grams,
  );
  return index < 0 ? [...movements] : movements.toSpliced(index, 1);
};

const withEntry = (movements: readonly TankMovement[], entry: JournalEntry, tankId: string): TankMovement[] => {
  const massKg = toKg(gramsOn(entry, tankId));
  const index = movements.findIndex((m) => m.at > entry.at);
  const added: TankMovement = { tankId, at: entry.at, kind: entry.kind, massKg, bookKg: 0 };
  return movements.toSpliced(index < 0 ? movements.length : index, 0, added);
};

/** Booked levels summed anew. Those of stating movements that stay keep their place: only what lies before them moved. */
const summed = (movements: readonly TankMovement[]): TankMovement[] => {
  let grams = 0;
  return movements.map((movement) => {
    grams += toGrams(movement.massKg);
    return { ...movement, bookKg: toKg(grams) };
  });
};

/** What books and model say of a tank, grams. */
export interface TankState {
  readonly bookGrams: number;
  readonly modelGrams: number;
}

/** What books and model say of a tank just before an instant, after these movements. */
export const stateAfter = (movements: readonly TankMovement[], losses: TankLosses, at: number): TankState => {
  const from = Math.max(0, movements.findLastIndex(isStating));
  const first = movements[from];
  if (first === undefined) return { bookGrams: 0, modelGrams: 0 };
  const { endKg } = carryForward({ at: first.at, massKg: 0 }, movements.slice(from), losses, at);
  const bookGrams = toGrams(movements.at(-1)?.bookKg ?? 0);
  return { bookGrams, modelGrams: Math.max(0, Math.min(bookGrams, toGrams(endKg))) };
};

const refuseBeforeOpening = (entry: JournalEntry, tank: Tank): void => {
  if (entry.kind === "opening")
    throw new PlanningError(
      "refused",
      `The books of ${tank.name} open on ${formatMinute(entry.at)}; nothing can be recorded before.`,
      "at",
    );
};

/** The lines of a stating entry, with those that concern one tank made for the changed books. */
const restatedLines = (
  entry: JournalEntry,
  tank: Tank,
  books: RecordBooks,
  losses: TankLosses,
  draft: { readonly added: readonly JournalEntry[]; readonly removed: readonly JournalEntry[] },
): JournalEntry["postings"] => {
  const past = books.tankMovements(BEFORE_ALL, entry.at).filter((m) => m.tankId === tank.id);
  const before = without(past, entry, tank.id);
  let changed = before;
  for (const removed of draft.removed) changed = without(changed, removed, tank.id);
  for (const added of draft.added) changed = withEntry(changed, added, tank.id);
  const was = stateAfter(summed(before), losses, entry.at);
  const is = stateAfter(summed(changed), losses, entry.at);
  const foundGrams = was.bookGrams + gramsOn(entry, tank.id);
  const negated = statingLines(tank, was.bookGrams, was.modelGrams, foundGrams).map((p) =>
    line(p.account.kind, p.account.ownerId, p.propellantId, -p.grams),
  );
  return gathered([...entry.postings, ...negated, ...statingLines(tank, is.bookGrams, is.modelGrams, foundGrams)]);
};

/** The entries that state a level after what the draft changes, each with the tanks concerned. */
const concerned = (books: RecordBooks, touched: readonly JournalEntry[], reversed: ReadonlySet<string>) => {
  const found = new Map<string, { readonly entry: JournalEntry; readonly tankIds: Set<string> }>();
  for (const change of touched)
    for (const tankId of tanksOf(change)) {
      const next = books.nextStatingEntries(tankId, change.at).find(({ id }) => !reversed.has(id));
      if (next === undefined) continue;
      const known = found.get(next.id) ?? { entry: next, tankIds: new Set<string>() };
      known.tankIds.add(tankId);
      found.set(next.id, known);
    }
  return [...found.values()];
};

const tankRow = (entities: EntitySet, id: string): Tank => {
  const tank = findEntity(entities, "tank", id);
  if (tank === null) throw new PlanningError("not found", `There is no tank ${id}.`);
  return tank;
};

/** The draft, with the later statements that it would falsify taken back and written anew. */
export const withRestatement = (books: RecordBooks, draft: RecordDraft, recorder: Recorder): RecordDraft => {
  const entities = recordedPlan(books.entities());
  const added = draft.entries ?? [];
  const reversedIds = draft.reversedEntryIds ?? [];
  const removed = reversedIds.map((id) => books.entry(id));
  const rewritten = concerned(books, [...added, ...removed], new Set(reversedIds)).map(({ entry, tankIds }) => {
    let { postings } = entry;
    for (const tankId of tankIds) {
      const tank = tankRow(entities, tankId);
      refuseBeforeOpening(entry, tank);
      const lines = restatedLines({ ...entry, postings }, tank, books, lossesOf(entities, tank), { added, removed });
      postings = lines;
    }
    const { author, recordedAt } = recorder;
    return { takenBackId: entry.id, entry: { ...entry, id: recorder.newId(), author, recordedAt, postings } };
  });
  const newIds = new Map(rewritten.map(({ takenBackId, entry }) => [takenBackId, entry.id]));
  const relinkedReadings = (newIds.size === 0 ? [] : books.readings()).flatMap(
    ({ id: readingId, entryId, isWithdrawn }) => {
      const newId = entryId === null || isWithdrawn ? undefined : newIds.get(entryId);
      return newId === undefined ? [] : [{ readingId, entryId: newId }];
    },
  );
  return {
    ...draft,
    relinkedReadings,
    reversedEntryIds: [...reversedIds, ...rewritten.map(({ takenBackId }) => takenBackId)],
    entries: [...added, ...rewritten.map(({ entry }) => entry)],
  };
};
