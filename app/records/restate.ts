/**
 * A record that comes late changes what the books held before a level that they state already. That level was measured,
 * or closed, and stands: its entry is taken back and written anew with the loss that now leads to it. Several levels of one
 * minute: `levels-of-one-minute.ts`.
 */
import { PlanningError } from "../ground/failure.ts";
import { type TankLosses, carryForward, isStating } from "../ledger/carry-forward.ts";
import type { EntitySet } from "../entity/entities.ts";
import { findEntity } from "../entity/entity-index.ts";
import type { Tank } from "../entity/tank.ts";
import { type JournalEntry, type Posting, type Reading, toGrams, toKg } from "../ledger/journal.ts";
import { lossesOf } from "../ledger/past.ts";
import type { TankMovement } from "../ledger/books.ts";
import { formatMinute } from "../format/time.ts";
import { entryInForce } from "../ledger/entries-of.ts";
import { splitFlow } from "./split-flows.ts";
import { gathered, line, statingLines } from "./postings.ts";
import { gramsOn, indexAmong, states, tanksOf, without } from "./entry-on-tank.ts";
import { type Changed, leftAtInstant, withThoseBehind } from "./levels-of-one-minute.ts";
import type { RecordBooks, RecordDraft, Recorder } from "./recorder.ts";
import { recordedPlan } from "./subject.ts";

const BEFORE_ALL = -1;

const withEntry = (
  movements: readonly TankMovement[],
  entry: JournalEntry,
  tank: Tank,
  readings: readonly Reading[],
): TankMovement[] => {
  const massKg = toKg(gramsOn(entry, tank.id));
  const index = movements.findIndex((m) => m.at > entry.at);
  const statedKg = states(entry, tank, { readings }) ? 0 : null;
  const { at, kind, sinceAt = null } = entry;
  const added: TankMovement = { tankId: tank.id, at, kind, massKg, bookKg: 0, statedKg, sinceAt };
  return movements.toSpliced(index < 0 ? movements.length : index, 0, added);
};

/** Booked levels summed anew. Those of stating movements that stay keep their place: only what lies before them moved. */
const summed = (movements: readonly TankMovement[]): TankMovement[] => {
  let grams = 0;
  return movements.map((movement) => {
    grams += toGrams(movement.massKg);
    const bookKg = toKg(grams);
    const statedKg = movement.statedKg === null ? null : movement.kind === "loading" ? 0 : bookKg;
    return { ...movement, bookKg, statedKg };
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
  const { endKg } = carryForward({ at: first.sinceAt ?? first.at, massKg: 0 }, movements.slice(from), losses, at);
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

/** The lines of a stating entry, with those that concern one tank made for the changed books; `saidGrams`: for another level. */
const restatedLines = (
  entry: JournalEntry,
  tank: Tank,
  books: RecordBooks,
  losses: TankLosses,
  draft: Changed,
  saidGrams: number | null = null,
): { readonly postings: JournalEntry["postings"]; readonly carriedOffGrams: number } => {
  const past = books.tankMovements(BEFORE_ALL, entry.at).filter((m) => m.tankId === tank.id);
  const before = without(past, entry, tank.id);
  let changed: readonly TankMovement[] = before;
  // What the draft moves later, a metered handover that goes on after the level, has no part in it.
  const isBefore = ({ at }: JournalEntry): boolean => at <= entry.at;
  for (const removed of draft.removed.filter(isBefore)) changed = without(changed, removed, tank.id);
  for (const added of draft.added.filter(isBefore)) changed = withEntry(changed, added, tank, draft.readings);
  const was = stateAfter(summed(before), losses, entry.at);
  const is = stateAfter(summed(changed), losses, entry.at);
  const foundGrams = entry.kind === "loading" ? 0 : was.bookGrams + gramsOn(entry, tank.id);
  // What was aboard a lander when it was loaded left with it, and is not missing.
  const ofEntry = (p: Posting): Posting =>
    entry.kind === "loading" && p.account.kind === "unaccounted"
      ? { ...p, account: { kind: "transit", ownerId: entry.subjectKey ?? "" } }
      : p;
  const negated = statingLines(tank, was.bookGrams, was.modelGrams, foundGrams)
    .map(ofEntry)
    .map((p) => line(p.account.kind, p.account.ownerId, p.propellantId, -p.grams));
  const lines = statingLines(tank, is.bookGrams, is.modelGrams, saidGrams ?? foundGrams).map(ofEntry);
  return {
    postings: gathered([...entry.postings, ...negated, ...lines]),
    carriedOffGrams: entry.kind === "loading" ? is.modelGrams - was.modelGrams : 0,
  };
};

/** A return whose sortie turns out to have left with more: that much more was burned. */
const burnedMore = (entry: JournalEntry, tank: Tank, grams: number): JournalEntry => ({
  ...entry,
  postings: gathered([
    ...entry.postings,
    line("transit", entry.subjectKey ?? "", tank.propellantId, -grams),
    line("burned", tank.ownerId, tank.propellantId, grams),
  ]),
});

/** Whether an entry brings propellant into a tank, rather than say what it holds. */
const flowsIn = (entry: JournalEntry, tankId: string): boolean =>
  entry.kind !== "opening" && entry.kind !== "reading" && entry.kind !== "closing" && gramsOn(entry, tankId) > 0;

/** Entries in force that state a tank's level at an instant, in the order in which they were written. */
const statingAt = (books: RecordBooks, changed: Changed, at: number, tankId: string): readonly JournalEntry[] => {
  const removed = new Set(changed.removed.map(({ id }) => id));
  return books
    .nextStatingEntries(tankId, at - 1, removed)
    .filter((entry) => entry.at === at && entry.kind !== "opening");
};

/** Of these entries, those that were written after one that goes, at its very instant: they were booked upon it. */
const bookedUpon = (
  books: RecordBooks,
  stating: readonly JournalEntry[],
  gone: JournalEntry,
  tankId: string,
): readonly JournalEntry[] => {
  if (stating.length === 0) return [];
  const made = books.tankMovements(gone.at - 1, gone.at).filter((m) => m.tankId === tankId);
  const index = indexAmong(made, gone, tankId);
  const own = made[index];
  return own === undefined || isStating(own) ? [] : stating.filter((entry) => indexAmong(made, entry, tankId) > index);
};

/**
 * The entry that states a tank's level next after a change. What flows in at the very instant of a gauge is in what it read;
 * what is drawn there comes after it, but where the gauge was read upon it.
 */
const nextStating = (
  books: RecordBooks,
  changed: Changed,
  change: JournalEntry,
  tankId: string,
  inFrontOf: ReadonlySet<string>,
) => {
  const ofInstant = flowsIn(change, tankId) ? [] : statingAt(books, changed, change.at, tankId);
  const upon = changed.removed.includes(change)
    ? bookedUpon(books, ofInstant, change, tankId)
    : ofInstant.filter(({ id }) => inFrontOf.has(id));
  const last = upon.at(-1);
  if (last !== undefined) return last;
  const isStatedAnew = changed.added.some(
    (entry) => entry.at === change.at && tanksOf(entry).includes(tankId) && states(entry, { id: tankId }, changed),
  );
  const isWithin = flowsIn(change, tankId) && !isStatedAnew;
  const removed = new Set(changed.removed.map(({ id }) => id));
  return books
    .nextStatingEntries(tankId, isWithin ? change.at - 1 : change.at, removed)
    .find(({ at, kind }) => !(kind === "opening" && at === change.at));
};

/** The entries that state a level after what the draft changes, each with the tanks concerned. */
const concerned = (books: RecordBooks, changed: Changed, inFrontOf: ReadonlySet<string>) => {
  const found = new Map<string, { readonly entry: JournalEntry; readonly tankIds: Set<string> }>();
  for (const change of [...changed.added, ...changed.removed])
    for (const tankId of tanksOf(change)) {
      const next = nextStating(books, changed, change, tankId, inFrontOf);
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

/** Tanks that the draft itself makes. */
const newTanks = (draft: RecordDraft): readonly Tank[] =>
  (draft.changes ?? []).flatMap((change) => (change.op === "put" && change.kind === "tank" ? [change.value] : []));

const tankIn = (entry: JournalEntry): string | undefined => tanksOf(entry)[0];

/** The draft with flows cut where a level is stated in their midst: its own at levels of the books, those of the books at its own. */
const withCutFlows = (
  books: RecordBooks,
  draft: RecordDraft,
  tanks: readonly Tank[],
  recorder: Recorder,
): RecordDraft => {
  const reversed = new Set(draft.reversedEntryIds ?? []);
  const cut: JournalEntry[] = [];
  const takenBack: string[] = [];
  for (const entry of draft.entries ?? []) {
    const tankId = tankIn(entry);
    if (entry.sinceAt === undefined || tankId === undefined) {
      for (const tank of tanks.filter(({ id }) => tanksOf(entry).includes(id) && states(entry, { id }, draft)))
        for (const flow of books.flowsAcross(tank.id, entry.at)) {
          if (reversed.has(flow.id) || takenBack.includes(flow.id)) continue;
          takenBack.push(flow.id);
          cut.push(
            ...splitFlow(
              { ...flow, author: recorder.author, recordedAt: recorder.recordedAt },
              [entry.at],
              recorder.newId,
            ),
          );
        }
      // After the part that had flowed by then, which its gauge read as well.
      cut.push(entry);
      continue;
    }
    const stated = books
      .tankMovements(entry.sinceAt, entry.at)
      .flatMap((movement) => (movement.tankId === tankId && isStating(movement) ? [movement.at] : []));
    cut.push(...splitFlow(entry, stated, recorder.newId));
  }
  return { ...draft, entries: cut, reversedEntryIds: [...reversed, ...takenBack] };
};

/** The draft, with the later statements that it would falsify taken back and written anew. */
export const withRestatement = (books: RecordBooks, asked: RecordDraft, recorder: Recorder): RecordDraft => {
  const rows = [...books.entities().tank, ...newTanks(asked)];
  const draft = withCutFlows(books, asked, rows, recorder);
  const entities = recordedPlan(books.entities());
  const added = draft.entries ?? [];
  const reversedIds = draft.reversedEntryIds ?? [];
  const removed = reversedIds.map((id) => books.entry(id));
  const moved = { added, removed, readings: draft.readings ?? [] };
  const reversed = new Set(reversedIds);
  const { author, recordedAt } = recorder;
  const anew = (takenBackId: string, entry: JournalEntry) => ({
    takenBackId,
    entry: { ...entry, id: recorder.newId(), author, recordedAt },
  });
  const tankOf = (tankId: string): Tank =>
    [...entities.tank, ...newTanks(draft)].find(({ id }) => id === tankId) ?? tankRow(entities, tankId);
  const left = new Map<string, { readonly was: JournalEntry; readonly postings: JournalEntry["postings"] }>();
  const looked = new Set<string>();
  for (const gone of removed)
    for (const tankId of tanksOf(gone)) {
      // Several that go at once are looked at together.
      const key = `${gone.at} ${tankId}`;
      if (looked.has(key)) continue;
      looked.add(key);
      for (const { entry, saidGrams } of leftAtInstant(books, moved, gone.at, tankId)) {
        const was = { ...entry, postings: left.get(entry.id)?.postings ?? entry.postings };
        const losses = lossesOf(entities, tankOf(tankId));
        const { postings } = restatedLines(was, tankOf(tankId), books, losses, moved, saidGrams);
        left.set(entry.id, { was: entry, postings });
      }
    }
  const stays = [...left.values()].map(({ was, postings }) => ({ was, is: anew(was.id, { ...was, postings }) }));
  const changed = {
    ...moved,
    added: [...added, ...stays.map(({ is }) => is.entry)],
    removed: [...removed, ...stays.map(({ was }) => was)],
  };
  // A level that is written anew takes up what came before it: one after it must not count that again.
  let sofar: Changed = changed;
  const inTime = concerned(books, changed, recorder.inFrontOf ?? new Set()).toSorted((a, b) => a.entry.at - b.entry.at);
  const later = inTime.flatMap(({ entry, tankIds }) => {
    let { postings } = entry;
    let back: JournalEntry | null = null;
    for (const tankId of tankIds) {
      const tank = tankOf(tankId);
      refuseBeforeOpening(entry, tank);
      const restated = restatedLines({ ...entry, postings }, tank, books, lossesOf(entities, tank), sofar);
      postings = restated.postings;
      if (restated.carriedOffGrams === 0) continue;
      back ??= entryInForce(books, entry.subjectKey ?? "", "return", reversed);
      if (back !== null) back = burnedMore(back, tank, restated.carriedOffGrams);
    }
    const is = anew(entry.id, { ...entry, postings });
    sofar = { ...sofar, added: [...sofar.added, is.entry], removed: [...sofar.removed, entry] };
    return [is, ...(back === null ? [] : [anew(back.id, back)])];
  });
  const first = [...stays.map(({ is }) => is), ...later];
  const rewritten = withThoseBehind(books, first, reversed, (entry) => anew(entry.id, entry));
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
