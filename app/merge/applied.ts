/** What of the news is done here, once every conflict is decided. */
import { missingCase } from "../ground/missing-case.ts";
import { PlanningError } from "../ground/failure.ts";
import type { Reading } from "../ledger/journal.ts";
import type { News } from "./compare.ts";
import type { Conflict, Sorted } from "./conflict.ts";
import type { Choice, Decision } from "./merge-choices.ts";
import { type SideEntry, statesLevel, tanksOf } from "./side.ts";
import type { StatusNews } from "./status-news.ts";

export interface Applied {
  /** Their entries that are written here. */
  readonly writes: readonly SideEntry[];
  /** Our entries that are taken back. */
  readonly takenBack: readonly SideEntry[];
  /** Their readings that come in with no booking. */
  readonly readings: readonly Reading[];
  /** Our readings that are withdrawn. */
  readonly withdrawn: readonly Reading[];
  readonly statuses: readonly StatusNews[];
}

/** Their news as done here. */
const doTheirs = (news: News): Partial<Applied> => {
  switch (news.did) {
    case "write":
      return { writes: [news.record] };
    case "take back":
      return { takenBack: [news.record] };
    case "read":
      return { readings: [news.reading] };
    case "withdraw":
      return { withdrawn: [news.reading] };
    case "status":
      return { statuses: [news.status] };
    default:
      return missingCase(news);
  }
};

/** Our news undone: what we wrote is taken back, what we took back is written as they have it. */
const undoOurs = (news: News, theirReadings: ReadonlyMap<string, Reading>): Partial<Applied> => {
  switch (news.did) {
    case "write": {
      // What a closing measured was measured; a reading that gives way to another was not.
      const withdrawn = news.record.entry.kind === "reading" ? news.record.readings : [];
      return { takenBack: [news.record], withdrawn };
    }
    case "take back":
      return { writes: [news.record] };
    case "read":
      return { withdrawn: news.reading.isWithdrawn ? [] : [news.reading] };
    case "withdraw": {
      const theirs = theirReadings.get(news.reading.id);
      return { readings: theirs === undefined ? [] : [theirs] };
    }
    case "status":
      return {};
    default:
      return missingCase(news);
  }
};

/** What both keep: of a level that ours states too, their gauge reading without its booking. */
const besideOurs = (news: News, conflict: Conflict): Partial<Applied> => {
  if (news.did !== "write" || !statesLevel(news.record.entry)) return doTheirs(news);
  const { at } = news.record.entry;
  const tankIds = new Set(tanksOf(news.record.entry));
  const isStatedHere = conflict.ours.some(
    (ours) =>
      ours.did === "write" &&
      statesLevel(ours.record.entry) &&
      ours.record.entry.at === at &&
      tanksOf(ours.record.entry).some((tankId) => tankIds.has(tankId)),
  );
  return isStatedHere ? { readings: news.record.readings } : doTheirs(news);
};

const partsOf = (
  conflict: Conflict,
  choice: Choice,
  theirReadings: ReadonlyMap<string, Reading>,
): Partial<Applied>[] => {
  if (choice === "keep ours") return [];
  if (choice === "keep both") {
    if (!conflict.canKeepBoth)
      throw new PlanningError("refused", "Of this, only one can be true: keep ours, or take theirs.", "decisions");
    return conflict.theirs.map((news) => besideOurs(news, conflict));
  }
  return [...conflict.theirs.map(doTheirs), ...conflict.ours.map((news) => undoOurs(news, theirReadings))];
};

const once = <T>(items: readonly T[], keyOf: (item: T) => string): readonly T[] => [
  ...new Map(items.map((item) => [keyOf(item), item])).values(),
];

/** Conflicts that no decision names. */
export const undecided = (conflicts: readonly Conflict[], decisions: readonly Decision[]): readonly Conflict[] => {
  const decided = new Set(decisions.map(({ conflictId }) => conflictId));
  return conflicts.filter(({ id }) => !decided.has(id));
};

/** A conflict that is not decided keeps ours. Throws "refused" for a choice that a conflict does not allow. */
export const applyNews = (
  { conflicts, incoming }: Sorted,
  decisions: readonly Decision[],
  theirReadings: ReadonlyMap<string, Reading>,
): Applied => {
  const choices = new Map(decisions.map(({ conflictId, choice }) => [conflictId, choice]));
  const parts = [
    ...incoming.map(doTheirs),
    ...conflicts.flatMap((conflict) => partsOf(conflict, choices.get(conflict.id) ?? "keep ours", theirReadings)),
  ];
  const entryId = ({ entry }: SideEntry): string => entry.id;
  const rowId = ({ id }: Reading): string => id;
  return {
    writes: once(
      parts.flatMap((part) => part.writes ?? []),
      entryId,
    ),
    takenBack: once(
      parts.flatMap((part) => part.takenBack ?? []),
      entryId,
    ),
    readings: once(
      parts.flatMap((part) => part.readings ?? []),
      rowId,
    ),
    withdrawn: once(
      parts.flatMap((part) => part.withdrawn ?? []),
      rowId,
    ),
    statuses: parts.flatMap((part) => part.statuses ?? []),
  };
};
