/**
 * A look back: the as-of instant is pinned before records that exist. What came later is left out, so that the plan stands
 * as it was known then, and it is said how much that is.
 */
import type { LookBack } from "../entity/plan.ts";
import type { Entity, EntitySet } from "../entity/entities.ts";
import type { Books } from "./past.ts";
import type { LaterRecord, LedgerBooks } from "./books.ts";

type Flight = Entity<"flight">;
type Sortie = Entity<"sortie">;

type IsLater = (kind: LaterRecord["kind"], key: string) => boolean;

/** The flight as it was known at `asOfAt`. Its dates are the recorded ones: what was planned before them is not kept. */
const flightThen = (flight: Flight, asOfAt: number, isLater: IsLater): Flight => {
  if (flight.status !== "departed" && flight.status !== "arrived" && flight.status !== "lost") return flight;
  if (isLater("departure", flight.key)) return { ...flight, status: "planned" };
  // What is lost and left nothing in the books never left, or left empty.
  const isLostLater = flight.status === "lost" && flight.lostAt !== null && flight.lostAt > asOfAt;
  if (isLostLater && !isLater("loss of flight", flight.key)) return { ...flight, status: "planned" };
  // Where no record says when it was lost, it stays lost.
  if (flight.status !== "lost" && flight.departAt > asOfAt) return { ...flight, status: "planned" };
  const isUnderWay =
    isLater("arrival", flight.key) ||
    isLater("loss of flight", flight.key) ||
    (flight.status === "arrived" && flight.arriveAt > asOfAt);
  return isUnderWay ? { ...flight, status: "departed" } : flight;
};

/** The sortie as it was known at `asOfAt`. */
const sortieThen = (sortie: Sortie, asOfAt: number, isLater: IsLater): Sortie => {
  if (sortie.status === "planned" || sortie.status === "cancelled") return sortie;
  // Where no record says when, it stays as it is.
  if (sortie.status === "stood down")
    return sortie.stoodDownAt !== null && sortie.stoodDownAt > asOfAt ? { ...sortie, status: "planned" } : sortie;
  if (sortie.loadAt > asOfAt || isLater("loading", sortie.key)) return { ...sortie, status: "planned" };
  const isOut = sortie.status === "flown" && (isLater("return", sortie.key) || sortie.returnAt > asOfAt);
  return isOut ? { ...sortie, status: "departed" } : sortie;
};

/** The books without those stretches of a metered handover that lie before `asOfAt`, where its record comes after it. */
const booksThen = (books: Books, isLater: IsLater): Books => ({
  statedLevels: () => books.statedLevels(),
  tankMovements: (...asked) =>
    books
      .tankMovements(...asked)
      .filter(({ kind, subjectKey }) => kind !== "arrival" || !isLater("arrival", subjectKey ?? "")),
});

interface Then {
  /** null: nothing is left out. */
  readonly lookBack: LookBack | null;
  readonly flights: readonly Flight[];
  readonly sorties: readonly Sortie[];
  readonly books: Books;
}

/** What is left out, and the plan's flights and sorties and the books as they stood. */
export const lookBackOf = (
  entities: Pick<EntitySet, "flight" | "sortie">,
  store: Books & Pick<LedgerBooks, "recordsAfter">,
  asOfAt: number,
): Then => {
  const later = store.recordsAfter(asOfAt);
  const kinds = new Set(later.map(({ kind, subjectKey }) => `${kind} ${subjectKey ?? ""}`));
  const isLater = (kind: LaterRecord["kind"], key: string): boolean => kinds.has(`${kind} ${key}`);
  // What was recorded without moving mass in the books, as a departure from a source of an empty load, has no entry.
  const unposted = [
    ...entities.flight.flatMap(({ status, departAt, arriveAt, lostAt, key }) => [
      ...((status === "departed" || status === "arrived") && departAt > asOfAt && !isLater("departure", key)
        ? [departAt]
        : []),
      ...(status === "arrived" && arriveAt > asOfAt && !isLater("arrival", key) ? [arriveAt] : []),
      ...(status === "lost" && lostAt !== null && lostAt > asOfAt && !isLater("loss of flight", key) ? [lostAt] : []),
    ]),
    ...entities.sortie.flatMap(({ status, stoodDownAt }) =>
      status === "stood down" && stoodDownAt !== null && stoodDownAt > asOfAt ? [stoodDownAt] : [],
    ),
  ];
  const instants = [...later.map(({ at }) => at), ...unposted];
  if (instants.length === 0)
    return { lookBack: null, flights: entities.flight, sorties: entities.sortie, books: store };
  return {
    lookBack: { leftOut: instants.length, lastAt: instants.reduce((last, at) => Math.max(last, at), -Infinity) },
    flights: entities.flight.map((flight) => flightThen(flight, asOfAt, isLater)),
    sorties: entities.sortie.map((sortie) => sortieThen(sortie, asOfAt, isLater)),
    books: booksThen(store, isLater),
  };
};
