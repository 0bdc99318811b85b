/**
 * Levels that stand while records come in before them: the booking of boil-off and of what is unaccounted, from what the
 * tank held to what is stated, is made for the joined records. And where a tank would have held less than nothing.
 */
import type { TankLosses } from "../ledger/carry-forward.ts";
import { findEntity } from "../entity/entity-index.ts";
import type { EntitySet } from "../entity/entities.ts";
import type { Tank } from "../entity/tank.ts";
import { type JournalEntry, type Posting, toKg } from "../ledger/journal.ts";
import { lossesOf } from "../ledger/past.ts";
import type { TankMovement } from "../ledger/books.ts";
import { gathered, line, statingLines } from "../records/postings.ts";
import { type TankState, stateAfter } from "../records/restate.ts";
import { recordedPlan } from "../records/subject.ts";
import type { Applied } from "./applied.ts";
import {
  type Side,
  type SideEntry,
  type SideMovement,
  gramsOn,
  inOrderAtOnce,
  statedGrams,
  statesLevel,
  tanksOf,
} from "./side.ts";

/** A tank that would have held less than nothing. */
export interface Overdraft {
  readonly tankId: string;
  readonly at: number;
  readonly grams: number;
  /** The record that draws at that instant, theirs if one of theirs does. */
  readonly record: SideEntry | null;
}

/** A record that comes before the books of a tank open. */
export interface TooEarly {
  readonly tankId: string;
  readonly opensAt: number;
  readonly record: SideEntry;
}

/** A metered handover of one side that was running when the other side measured its tank: nobody has said what had flowed. */
export interface Amidst {
  readonly tankId: string;
  readonly measuredAt: number;
  readonly record: SideEntry;
}

export interface Settled {
  /** New postings of entries, by id: ours are to be taken back and written anew, theirs are written so at once. */
  readonly postings: ReadonlyMap<string, readonly Posting[]>;
  readonly overdrafts: readonly Overdraft[];
  readonly tooEarly: readonly TooEarly[];
  readonly amidst: readonly Amidst[];
}

/** Whether an entry says what the tank held: the loss model takes up the level anew. A closing does where it was measured. */
const isStated = (tankId: string, { entry, readings }: SideEntry): boolean =>
  statesLevel(entry) && (entry.kind !== "closing" || readings.some((reading) => reading.tankId === tankId));

const asMovement = (tankId: string, { record, at }: SideMovement, grams: number, bookGrams: number): TankMovement => ({
  tankId,
  at,
  kind: record.entry.kind,
  massKg: toKg(grams),
  bookKg: toKg(bookGrams),
  statedKg: isStated(tankId, record) || record.entry.kind === "return" ? toKg(bookGrams) : null,
  sinceAt: record.entry.sinceAt ?? null,
});

interface Walk {
  /** State just before each entry that states a level, by its id: all that moved up to and at the instant but itself. */
  readonly before: ReadonlyMap<string, TankState>;
  readonly lowest: { readonly at: number; readonly grams: number } | null;
}

/** Goes through a tank's movements; `gramsOf` says what an entry that states the level moves, given the state before it. */
const walk = (
  tankId: string,
  movements: readonly SideMovement[],
  losses: TankLosses,
  gramsOf: (movement: SideMovement, before: TankState) => number,
): Walk => {
  const before = new Map<string, TankState>();
  let lowest: Walk["lowest"] = null;
  let book = 0;
  // Since the level was last stated: all that the loss model needs.
  let recent: TankMovement[] = [];
  for (const [at, atOnce] of Map.groupBy(movements, (movement) => movement.at)) {
    for (const movement of inOrderAtOnce(atOnce)) {
      if (!statesLevel(movement.record.entry)) {
        book += movement.grams;
        recent.push(asMovement(tankId, movement, movement.grams, book));
        continue;
      }
      const state = stateAfter(recent, losses, at);
      before.set(movement.record.entry.id, state);
      const grams = gramsOf(movement, state);
      book += grams;
      const after = asMovement(tankId, movement, grams, book);
      // Boil-off booked from the model states nothing: the model goes on as it was.
      if (after.statedKg === null) recent.push(after);
      else recent = [after];
    }
    if (lowest === null || book < lowest.grams) lowest = { at, grams: book };
  }
  return { before, lowest };
};

/** Grams, less than nothing: what was drawn at the instant of a level comes after it; what flowed in then is in it. */
const drawnAt = (movements: readonly SideMovement[], at: number): number =>
  movements.reduce((sum, m) => (m.at === at && m.grams < 0 && !statesLevel(m.record.entry) ? sum + m.grams : sum), 0);

const negated = (lines: readonly Posting[]): Posting[] =>
  lines.map(({ account, propellantId, grams }) => line(account.kind, account.ownerId, propellantId, -grams));

/** The lines of an entry with those of one tank made for another state before it and another level after it. */
const restated = (
  postings: readonly Posting[],
  tank: Tank,
  was: TankState & { readonly foundGrams: number },
  is: TankState & { readonly foundGrams: number },
): readonly Posting[] =>
  gathered([
    ...postings,
    ...negated(statingLines(tank, was.bookGrams, was.modelGrams, was.foundGrams)),
    ...statingLines(tank, is.bookGrams, is.modelGrams, is.foundGrams),
  ]);

/** A flow that was recorded on the side of the measurement is in two parts there, so that none runs across it. */
const amidstOf = (tankId: string, joined: readonly SideMovement[]): readonly Amidst[] =>
  joined.flatMap(({ record, at }) => {
    const { sinceAt } = record.entry;
    if (sinceAt === undefined) return [];
    const read = joined.find((m) => sinceAt < m.at && m.at < at && isStated(tankId, m.record));
    return read === undefined ? [] : [{ tankId, measuredAt: read.at, record }];
  });

interface TankCase {
  readonly tank: Tank;
  readonly losses: TankLosses;
  readonly joined: readonly SideMovement[];
  /** Which side an entry stands on, with all that this side has of the tank. */
  readonly sideOf: (record: SideEntry) => Side;
  readonly isTheirs: (record: SideEntry) => boolean;
}

const settleTank = (
  { tank, losses, joined, sideOf, isTheirs }: TankCase,
  postings: Map<string, readonly Posting[]>,
): Pick<Settled, "overdrafts" | "tooEarly"> => {
  const own = new Map<Side, Walk["before"]>();
  const stateOnItsSide = (record: SideEntry): TankState => {
    const side = sideOf(record);
    const known = own.get(side) ?? walk(tank.id, side.movements(tank.id), losses, (movement) => movement.grams).before;
    own.set(side, known);
    return known.get(record.entry.id) ?? { bookGrams: 0, modelGrams: 0 };
  };
  const tooEarly: TooEarly[] = [];
  const gramsOf = ({ record, grams, at }: SideMovement, is: TankState): number => {
    const was = stateOnItsSide(record);
    const side = sideOf(record);
    const stated = statedGrams(side, record.entry, tank.id);
    const wasFound = was.bookGrams + grams;
    const isFound = stated + drawnAt(joined, at);
    const isAsItWas =
      isFound - is.bookGrams === grams && was.bookGrams - was.modelGrams === is.bookGrams - is.modelGrams;
    if (isAsItWas) return grams;
    if (record.entry.kind === "opening") {
      const first = joined.find((m) => m.at < at);
      if (first !== undefined) tooEarly.push({ tankId: tank.id, opensAt: at, record: first.record });
      return grams;
    }
    const before = postings.get(record.entry.id) ?? record.entry.postings;
    const after = restated(before, tank, { ...was, foundGrams: wasFound }, { ...is, foundGrams: isFound });
    postings.set(record.entry.id, after);
    return gramsOn({ ...record.entry, postings: [...after] } satisfies JournalEntry, tank.id);
  };
  const { lowest } = walk(tank.id, joined, losses, gramsOf);
  if (lowest === null || lowest.grams >= 0) return { overdrafts: [], tooEarly };
  const drawing = joined.filter((m) => m.at === lowest.at && m.grams < 0);
  const record = (drawing.find((m) => isTheirs(m.record)) ?? drawing[0])?.record ?? null;
  return { overdrafts: [{ tankId: tank.id, ...lowest, record }], tooEarly };
};

/** `plan`: ours as it will be; its loss periods hold for both sides. */
export const settleLevels = (plan: EntitySet, ours: Side, theirs: Side, applied: Applied): Settled => {
  const rows = recordedPlan(plan);
  const gone = new Set(applied.takenBack);
  const fromThere = new Set(applied.writes);
  const touched = new Set([...applied.writes, ...applied.takenBack].flatMap(({ entry }) => tanksOf(entry)));
  const postings = new Map<string, readonly Posting[]>();
  const overdrafts: Overdraft[] = [];
  const tooEarly: TooEarly[] = [];
  const amidst: Amidst[] = [];
  for (const tankId of touched) {
    const tank = findEntity(rows, "tank", tankId);
    // Named by the check of the entry, which says so in words.
    if (tank === null) continue;
    const joined = [
      ...ours.movements(tankId).filter(({ record }) => !gone.has(record)),
      ...theirs.movements(tankId).filter(({ record }) => fromThere.has(record)),
    ].toSorted((a, b) => a.at - b.at);
    const isTheirs = (record: SideEntry): boolean => fromThere.has(record);
    const sideOf = (record: SideEntry): Side => (isTheirs(record) ? theirs : ours);
    const found = settleTank({ tank, losses: lossesOf(rows, tank), joined, sideOf, isTheirs }, postings);
    overdrafts.push(...found.overdrafts);
    tooEarly.push(...found.tooEarly);
    amidst.push(...amidstOf(tankId, joined));
  }
  return { postings, overdrafts, tooEarly, amidst };
};
