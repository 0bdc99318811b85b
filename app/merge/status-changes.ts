/** Flights and sorties brought to what the joined records say of them, in every plan case that has them. */
import type { Change, EntitySet } from "../entity/entities.ts";
import type { Flight } from "../entity/flight.ts";
import type { Sortie } from "../entity/sortie.ts";
import { type JournalEntry, toKg } from "../ledger/journal.ts";
import { flightEverywhere, sortieEverywhere } from "../records/subject.ts";
import { type StatusNews, rankOf } from "./status-news.ts";

type Loads = Flight["loads"];

const loadsOf = ({ postings, subjectKey }: JournalEntry): Loads =>
  postings
    .filter(({ account }) => account.kind === "transit" && account.ownerId === subjectKey)
    .map(({ propellantId, grams }) => ({ propellantId, loadedKg: toKg(grams) }));

const flightFollowing = (
  row: Flight,
  entries: readonly JournalEntry[],
  told: Flight | null,
  dated: Loads | null,
): Flight => {
  const of = (kind: JournalEntry["kind"]) => entries.find((entry) => entry.kind === kind);
  const departure = of("departure");
  const arrival = of("arrival");
  const loss = of("loss of flight");
  if (departure === undefined && arrival === undefined) {
    if (loss !== undefined) return { ...row, status: "lost", lostAt: loss.at };
    if (told !== null) {
      const { status, departAt, arriveAt, loads, lostAt } = told;
      return { ...row, status, departAt, arriveAt, loads, lostAt };
    }
    return rankOf(row.status) === 0 ? row : { ...row, status: "planned", lostAt: null };
  }
  const departAt = departure?.at ?? row.departAt;
  const isLost = arrival === undefined && (loss !== undefined || told?.status === "lost");
  return {
    ...row,
    status: arrival === undefined ? (isLost ? "lost" : "departed") : "arrived",
    departAt,
    arriveAt: arrival?.at ?? departAt + (row.arriveAt - row.departAt),
    loads: departure === undefined ? row.loads : (dated ?? loadsOf(departure)),
    lostAt: isLost ? (loss?.at ?? told?.lostAt ?? null) : null,
  };
};

const sortieFollowing = (row: Sortie, entries: readonly JournalEntry[], told: Sortie | null): Sortie => {
  const loading = entries.find((entry) => entry.kind === "loading");
  const home = entries.find((entry) => entry.kind === "return");
  if (loading === undefined && home === undefined) {
    if (told !== null) return { ...row, status: told.status, loadAt: told.loadAt, returnAt: told.returnAt };
    return rankOf(row.status) === 0 ? row : { ...row, status: "planned" };
  }
  const loadAt = loading?.at ?? row.loadAt;
  const isFlown = home !== undefined || told?.status === "flown";
  return {
    ...row,
    status: isFlown ? "flown" : "departed",
    loadAt,
    returnAt: home?.at ?? (told?.status === "flown" ? told.returnAt : loadAt + (row.returnAt - row.loadAt)),
  };
};

/** Loads as their row states them, where it says the same as the departure (a propellant of which nothing was loaded stays named). */
const theirLoads = (theirs: EntitySet, key: string, entries: readonly JournalEntry[]): Loads | null => {
  const departure = entries.find((entry) => entry.kind === "departure");
  const row = theirs.flight.find((flight) => flight.key === key && flight.departAt === departure?.at);
  if (departure === undefined || row === undefined) return null;
  const loaded = new Map(loadsOf(departure).map((load) => [load.propellantId, load.loadedKg]));
  const isSame = row.loads.every((load) => (loaded.get(load.propellantId) ?? 0) === load.loadedKg);
  return isSame && row.loads.length >= loaded.size ? row.loads : null;
};

/**
 * `plan`: ours, with the rows that came along. `entries`: all in force after the joining. `keys`: of what the joining
 * concerns. `told`: statuses that no entry says.
 */
export const statusChanges = (
  plan: EntitySet,
  theirs: EntitySet,
  entries: readonly JournalEntry[],
  keys: ReadonlySet<string>,
  told: readonly StatusNews[],
): readonly Change[] => {
  const byKey = Map.groupBy(
    entries.filter(({ subjectKey }) => subjectKey !== null && keys.has(subjectKey)),
    ({ subjectKey }) => subjectKey ?? "",
  );
  return [...keys].flatMap((key) => {
    const own = byKey.get(key) ?? [];
    const toldOf = (kind: StatusNews["kind"]) =>
      told.find((news) => news.kind === kind && news.key === key)?.row ?? null;
    const loads = theirLoads(theirs, key, own);
    return [
      ...flightEverywhere(plan, key, (row) => flightFollowing(row, own, toldOf("flight") as Flight | null, loads)),
      ...sortieEverywhere(plan, key, (row) => sortieFollowing(row, own, toldOf("sortie") as Sortie | null)),
    ];
  });
};
