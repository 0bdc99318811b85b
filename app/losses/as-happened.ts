/**
 * The other reading of the book: loss by the month that it happened in. What a reading or a closing wrote off belongs to
 * the time since the level before it, and is shared over that time as the rates in force say, to the gram.
 */
import { bisectLeft, bisectRight } from "d3-array";
import { type TankLosses, carryForward, isStating } from "../ledger/carry-forward.ts";
import type { EntryKind } from "../ledger/journal.ts";
import type { LevelSegment } from "../storage/segment.ts";
import { lossOver } from "../storage/level.ts";
import { DAY_MS } from "../ground/quantity.ts";
import type { TankMovement } from "../ledger/books.ts";
import type { LossBooking } from "../ledger/loss-booking.ts";
import type { Statement } from "./statement.ts";
import type { StatementSums } from "../ledger/statement-sums.ts";

/** Entries up to which the loss of a tank is booked. */
const bookingKinds: ReadonlySet<EntryKind> = new Set<EntryKind>(["opening", "reading", "closing"]);

/** Lost from the start of the segments to an instant, kg. */
const lostUntil = (segments: readonly LevelSegment[], at: number): number =>
  segments.reduce((sum, { startAt, endAt, m0Kg, kPerDay, cKgPerDay }) => {
    const days = (Math.min(endAt, at) - startAt) / DAY_MS;
    return days > 0 ? sum + lossOver(m0Kg, kPerDay, cKgPerDay, 0, days) : sum;
  }, 0);

/** Each tank's movements in order of time, from its first on, and what it loses in the plan case. */
export type TanksOfBooks = ReadonlyMap<
  string,
  { readonly movements: readonly TankMovement[]; readonly losses: TankLosses }
>;

/** A stretch of one tank from a level of the books to the next booking of its loss. */
interface Stretch {
  readonly fromAt: number;
  readonly untilAt: number;
  readonly segments: () => readonly LevelSegment[];
}

/** Finds the stretch that ends with a booking; null where the books had no level before it. */
const stretchFinder = (movements: readonly TankMovement[], losses: TankLosses) => {
  const levels = movements.filter(({ kind }) => bookingKinds.has(kind)).map(({ at }) => at);
  const instants = movements.map(({ at }) => at);
  return (bookedAt: number): Stretch | null => {
    const fromAt = levels[bisectLeft(levels, bookedAt) - 1];
    if (fromAt === undefined) return null;
    const walk = (): readonly LevelSegment[] => {
      // The level with all that moved at that very instant: the last movement of the instant holds it.
      const after = bisectRight(instants, fromAt);
      const startKg = movements[after - 1]?.bookKg ?? 0;
      const moves = movements.slice(after, bisectRight(instants, bookedAt)).filter((move) => !isStating(move));
      return carryForward({ at: fromAt, massKg: startKg }, moves, losses, bookedAt).segments;
    };
    return { fromAt, untilAt: bookedAt, segments: walk };
  };
};

/** A booking with the stretches of its tanks that it tells of. */
interface Spread {
  readonly booking: LossBooking;
  readonly fromAt: number;
  readonly stretches: readonly Stretch[];
}

const spreadsOf = (bookings: readonly LossBooking[], tanks: TanksOfBooks): readonly Spread[] => {
  const finders = new Map([...tanks].map(([id, { movements, losses }]) => [id, stretchFinder(movements, losses)]));
  return bookings.map((booking) => {
    const stretches = booking.tankIds.flatMap((id) => finders.get(id)?.(booking.at) ?? []);
    return { booking, fromAt: Math.min(booking.at, ...stretches.map(({ fromAt }) => fromAt)), stretches };
  });
};

/** The share of a booking that had happened by an instant before it, 0 to 1. By the rates; by time where they say nothing. */
const shareBefore = (stretches: readonly Stretch[], edgeAt: number): number => {
  let [lostKg, allKg, days, allDays] = [0, 0, 0, 0];
  for (const { fromAt, untilAt, segments } of stretches) {
    const walked = segments();
    lostKg += lostUntil(walked, edgeAt);
    allKg += lostUntil(walked, untilAt);
    days += Math.max(0, edgeAt - fromAt);
    allDays += untilAt - fromAt;
  }
  if (allKg > 0) return Math.min(1, lostKg / allKg);
  return allDays > 0 ? days / allDays : 0;
};

interface Shift {
  readonly boilOffGrams: number;
  readonly unaccountedGrams: number;
}

/**
 * What is booked after an edge and had happened before it, grams. Rounded here, at the edge: so a month does not change
 * with the months that are shown beside it, and its two edges together keep every sum to the gram.
 */
const shiftAt = (spreads: readonly Spread[], edgeAt: number): Shift => {
  let boilOffGrams = 0;
  let unaccountedGrams = 0;
  for (const { booking, fromAt, stretches } of spreads) {
    if (edgeAt <= fromAt || booking.at <= edgeAt) continue;
    const share = shareBefore(stretches, edgeAt);
    boilOffGrams += Math.round(booking.boilOffGrams * share);
    unaccountedGrams += Math.round(booking.unaccountedGrams * share);
  }
  return { boilOffGrams, unaccountedGrams };
};

const NO_SHIFT: Shift = { boilOffGrams: 0, unaccountedGrams: 0 };

const moved = (line: StatementSums, from: Shift, until: Shift): StatementSums => ({
  ...line,
  openingGrams: line.openingGrams - from.boilOffGrams - from.unaccountedGrams,
  boilOffGrams: line.boilOffGrams - from.boilOffGrams + until.boilOffGrams,
  unaccountedGrams: line.unaccountedGrams - from.unaccountedGrams + until.unaccountedGrams,
  closingGrams: line.closingGrams - until.boilOffGrams - until.unaccountedGrams,
});

/**
 * The sums of a statement as they happened. `bookings` are those after the first edge, to the end of the books: what a
 * later reading wrote off may have been lost before the last edge. What was lost since the last level that the books
 * state is in neither reading. Over the whole of the books both have the same sums, to the gram.
 */
export const asHappened = (
  statement: Statement,
  bookings: readonly LossBooking[],
  tanks: TanksOfBooks,
): readonly StatementSums[] => {
  const own = bookings.filter(
    ({ depotId, propellantId }) => depotId === statement.depotId && propellantId === statement.propellantId,
  );
  const spreads = spreadsOf(own, tanks);
  const edges = new Set(statement.lines.flatMap(({ fromAt, untilAt }) => [fromAt, untilAt]));
  const shifts = new Map([...edges].map((edgeAt) => [edgeAt, shiftAt(spreads, edgeAt)]));
  return statement.lines.map((line) =>
    moved(line, shifts.get(line.fromAt) ?? NO_SHIFT, shifts.get(line.untilAt) ?? NO_SHIFT),
  );
};
