/** A flight left: what it loaded goes from the source, or from the origin depot's tanks, onto the flight's way. */
import type { RecordInput } from "./record-input.ts";
import { PlanningError } from "../ground/failure.ts";
import { keptShare } from "../forecast/compile-flights.ts";
import { carriage } from "../forecast/compile-tanks.ts";
import { byId } from "../forecast/draft.ts";
import { periodInForce, rateOf } from "../storage/loss-rate.ts";
import type { EntitySet } from "../entity/entities.ts";
import { findEntity } from "../entity/entity-index.ts";
import type { Flight } from "../entity/flight.ts";
import type { Tank } from "../entity/tank.ts";
import { type Posting, toGrams, toKg } from "../ledger/journal.ts";
import type { Step } from "../ledger/books.ts";
import { tankGrams } from "./level-state.ts";
import { entryOf, gramsByPropellant, line } from "./postings.ts";
import { type RecordBooks, type Recorder, stepOf } from "./recorder.ts";
import { withRestatement } from "./restate.ts";
import { flightEverywhere, flightIn, tankOf } from "./subject.ts";

/** Share of a full tank lost in a day: what decides, as in the forecast, the order in which tanks are drawn. */
const lossShare = (entities: EntitySet, tank: Tank, at: number): number => {
  const own = entities.lossPeriod.filter((row) => row.tankId === tank.id && row.planCaseId === null);
  const period = periodInForce(own, at);
  if (period === null) return 0;
  const { kPerDay, cKgPerDay } = rateOf(period.basis);
  return kPerDay + (tank.maximumFillKg > 0 ? cKgPerDay / tank.maximumFillKg : 0);
};

/** Tanks of a propellant at a depot in the order in which they are drawn: highest loss first, or by rank, as in the forecast. */
const inOrder = (entities: EntitySet, depotId: string, propellantId: string, at: number): readonly Tank[] =>
  entities.tank
    .filter((tank) => tank.ownerKind === "depot" && tank.ownerId === depotId && tank.propellantId === propellantId)
    .map((tank) => ({ tank, loss: lossShare(entities, tank, at) }))
    .toSorted(
      (a, b) =>
        (a.tank.rank ?? Infinity) - (b.tank.rank ?? Infinity) || b.loss - a.loss || (a.tank.id < b.tank.id ? -1 : 1),
    )
    .map(({ tank }) => tank);

/** What left the tanks for a load: chilldown of the line and the share lost on the way come on top. */
const grossGrams = (entities: EntitySet, flight: Flight, propellantId: string, grams: number): number => {
  const carried = carriedBy(entities, flight, propellantId);
  if (carried === undefined || grams === 0) return grams;
  return Math.max(grams, toGrams(carried.chilldownKg + toKg(grams) / keptShare(carried.lossFraction)));
};

/** Grams that each tank gave, by the books and the loss model, above its heel. Throws "refused" if they hold less. */
const shared = (
  entities: EntitySet,
  books: RecordBooks,
  flight: Flight & { readonly origin: { readonly kind: "depot"; readonly depotId: string } },
  at: number,
  propellantId: string,
  gross: number,
): ReadonlyMap<string, number> => {
  const given = new Map<string, number>();
  let rest = gross;
  for (const tank of inOrder(entities, flight.origin.depotId, propellantId, at)) {
    const above = tankGrams(entities, books, tank, at).modelGrams - toGrams(tank.heelKg);
    const part = Math.max(0, Math.min(rest, above));
    rest -= part;
    given.set(tank.id, part);
  }
  if (rest > 0) {
    const depot = findEntity(entities, "depot", flight.origin.depotId)?.name ?? flight.origin.depotId;
    const name = findEntity(entities, "propellant", propellantId)?.name.toLowerCase() ?? propellantId;
    throw new PlanningError(
      "refused",
      `The books of ${depot} hold ${toKg(gross - rest)} kg of ${name} above the heel then; ${toKg(gross)} kg (the load with chilldown and handover loss) cannot have been drawn there. Record what came before, or a gauge reading, or correct the load.`,
      "loads",
    );
  }
  return given;
};

/** The lines of one propellant that a flight loaded. */
const loadedLines = (
  entities: EntitySet,
  books: RecordBooks,
  flight: Flight,
  input: RecordInput<"record.departure">,
  propellantId: string,
  grams: number,
): Posting[] => {
  const { origin } = flight;
  const aboard = line("transit", flight.key, propellantId, grams);
  if (origin.kind === "source") return [aboard, line("source", origin.sourceId, propellantId, -grams)];
  const given =
    input.drawn === undefined
      ? shared(
          entities,
          books,
          { ...flight, origin },
          input.at,
          propellantId,
          grossGrams(entities, flight, propellantId, grams),
        )
      : new Map(
          input.drawn.flatMap(({ tankId, massKg }, i) => {
            const tank = tankOf(entities, tankId, origin.depotId, `drawn.${i}.tankId`);
            return tank.propellantId === propellantId ? [[tankId, toGrams(massKg)] as const] : [];
          }),
        );
  const gross = [...given.values()].reduce((sum, part) => sum + part, 0);
  if (gross < grams)
    throw new PlanningError("refused", `${toKg(gross)} kg drawn cannot make a load of ${toKg(grams)} kg.`, "drawn");
  return [
    aboard,
    ...[...given].map(([tankId, part]) => line("tank", tankId, propellantId, -part)),
    line("handover loss", origin.depotId, propellantId, gross - grams),
  ];
};

const carriedBy = (entities: EntitySet, flight: Flight, propellantId: string) =>
  carriage(byId(entities.craftClass), findEntity(entities, "craft", flight.craftId) ?? undefined, propellantId);

/** The flight's dates and loads follow in every plan case; its coast keeps its planned length. */
export const recordDeparture = (
  books: RecordBooks,
  input: RecordInput<"record.departure">,
  recorder: Recorder,
): Step => {
  const entities = books.entities();
  const flight = flightIn(entities, input.flightId, ["planned", "firm"]);
  const loads = gramsByPropellant(
    input.loads.map(({ propellantId, loadedKg }) => ({ propellantId, massKg: loadedKg })),
    "loads",
  );
  input.loads.forEach(({ propellantId }, i) => {
    if (carriedBy(entities, flight, propellantId) === undefined)
      throw new PlanningError("refused", `${flight.name} cannot carry ${propellantId}.`, `loads.${i}.propellantId`);
  });
  const lines = [...loads].flatMap(([propellantId, grams]) =>
    loadedLines(entities, books, flight, input, propellantId, grams),
  );
  const moved = lines.filter((posting) => posting.grams !== 0);
  const entry = entryOf({ at: input.at, kind: "departure", subjectKey: flight.key, note: input.note }, moved, recorder);
  const changes = flightEverywhere(entities, flight.key, (row) => ({
    ...row,
    status: "departed",
    departAt: input.at,
    arriveAt: input.at + (row.arriveAt - row.departAt),
    loads: [...loads].map(([propellantId, grams]) => ({ propellantId, loadedKg: toKg(grams) })),
  }));
  const draft = { label: `${flight.name} departed`, changes, entries: entry === null ? [] : [entry] };
  return stepOf(withRestatement(books, draft, recorder), recorder);
};
