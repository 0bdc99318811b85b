/** What else a corrected record would make untrue, each refused with the way out. */
import type { EntitySet } from "../entity/entities.ts";
import { findEntity } from "../entity/entity-index.ts";
import type { Sortie } from "../entity/sortie.ts";
import { formatMinute } from "../format/time.ts";
import { PlanningError } from "../ground/failure.ts";
import type { LedgerBooks, Step } from "../ledger/books.ts";
import { isStating } from "../ledger/carry-forward.ts";
import type { JournalEntry } from "../ledger/journal.ts";
import { gramsOn } from "./entry-on-tank.ts";

const tanksOf = (entries: readonly JournalEntry[]): ReadonlySet<string> =>
  new Set(
    entries.flatMap(({ postings }) =>
      postings.flatMap(({ account }) => (account.kind === "tank" ? [account.ownerId] : [])),
    ),
  );

/** How a tank was moved, as text: when, how much, and since when. */
const movesOf = (entries: readonly JournalEntry[], tankId: string): string =>
  JSON.stringify(
    entries
      .map((entry) => [entry.at, entry.sinceAt ?? null, gramsOn(entry, tankId)] as const)
      .filter(([, , grams]) => grams !== 0)
      .toSorted(([a, sinceA], [b, sinceB]) => a - b || (sinceA ?? a) - (sinceB ?? b)),
  );

/**
 * Boil-off that a closing booked from the model rests on what was in the tank by then, and is written anew by nobody. Throws
 * "refused" where a tank is moved otherwise than it was, before such a closing and with no level measured in between.
 */
export const refuseClosed = (
  books: Pick<LedgerBooks, "movementsOfTank" | "entities">,
  was: readonly JournalEntry[],
  is: readonly JournalEntry[],
): void => {
  const entities = books.entities();
  for (const tankId of new Set([...tanksOf(was), ...tanksOf(is)])) {
    if (movesOf(was, tankId) === movesOf(is, tankId)) continue;
    const fromAt = Math.min(...[...was, ...is].map(({ at, sinceAt }) => sinceAt ?? at));
    const later = books.movementsOfTank(tankId, fromAt, Number.MAX_SAFE_INTEGER);
    const measured = later.findIndex(isStating);
    const closed = (measured < 0 ? later : later.slice(0, measured)).find(({ kind }) => kind === "closing");
    if (closed === undefined) continue;
    const tank = findEntity(entities, "tank", tankId);
    throw new PlanningError(
      "refused",
      `The books were closed on ${formatMinute(closed.at)}, with boil-off of ${tank?.name ?? tankId} that rests on this record. Reverse that closing first in the journal, put this right, then close the month again.`,
    );
  }
};

interface Away {
  readonly sortie: Sortie;
  readonly other: Sortie;
}

/** Recorded sorties of one lander of which one begins before the other has ended. */
const overlaps = (entities: EntitySet, key: string): readonly Away[] => {
  const isOut = ({ status }: Sortie): boolean => status === "departed" || status === "flown";
  const endOf = ({ status, returnAt }: Sortie): number => (status === "flown" ? returnAt : Infinity);
  const sortie = entities.sortie.find((row) => row.key === key && isOut(row));
  if (sortie === undefined) return [];
  return entities.sortie
    .filter((row) => row.planCaseId === sortie.planCaseId && row.landerId === sortie.landerId && row.key !== key)
    .filter((row) => isOut(row) && row.loadAt < endOf(sortie) && sortie.loadAt < endOf(row))
    .map((other) => ({ sortie, other }));
};

/** Throws "refused" where a lander would be away on two sorties at once that it was not before. */
export const refuseTwoPlaces = (before: EntitySet, after: EntitySet, key: string | null): void => {
  if (key === null) return;
  const known = new Set(overlaps(before, key).map(({ other }) => other.key));
  const found = overlaps(after, key).find(({ other }) => !known.has(other.key));
  if (found === undefined) return;
  const { sortie, other } = found;
  const lander = findEntity(after, "craft", sortie.landerId)?.name ?? sortie.landerId;
  const home = other.status === "flown" ? ` and came home on ${formatMinute(other.returnAt)}` : "";
  throw new PlanningError(
    "refused",
    `${lander} left for ${other.name} on ${formatMinute(other.loadAt)}${home}: it cannot be on ${sortie.name} in that time. Check the date, or put the record of ${other.name} right first.`,
    "at",
  );
};

/** Throws "refused" where a sortie that flew later would have come home with more than it left with. */
export const refuseBurnedLessThanNothing = (entities: EntitySet, { entries }: Pick<Step, "entries">): void => {
  for (const { kind, subjectKey, postings, at } of entries) {
    if (kind !== "return" || !postings.some(({ account, grams }) => account.kind === "burned" && grams < 0)) continue;
    const name = entities.sortie.find(({ key }) => key === subjectKey)?.name ?? subjectKey ?? "";
    throw new PlanningError(
      "refused",
      `${name} came home on ${formatMinute(at)} with more than it would then have left with: it took along what was left aboard. Put that return right first.`,
    );
  }
};
