/** A flight left: what it loaded goes from the source, or from the origin depot's tanks, onto the flight's way. */
import type { Input } from "../contract/contract.ts";
import { PlanningError } from "../contract/failure.ts";
import { periodInForce, rateOf } from "../forecast/loss-rate.ts";
import type { EntitySet } from "../ledger/entities.ts";
import type { Flight } from "../ledger/entity/flight.ts";
import type { Tank } from "../ledger/entity/tank.ts";
import { type Posting, toKg } from "../ledger/journal.ts";
import type { Step } from "../ledger/store.ts";
import { tankGrams } from "./level-state.ts";
import { entryOf, gramsByPropellant, line } from "./postings.ts";
import { type RecordBooks, type Recorder, stepOf } from "./recorder.ts";
import { withRestatement } from "./restate.ts";
import { flightEverywhere, flightIn } from "./subject.ts";

/** Share of a full tank lost in a day: what decides, as in the forecast, the order in which tanks are drawn. */
const lossShare = (entities: EntitySet, tank: Tank, at: number): number => {
  const own = entities.lossPeriod.filter((row) => row.tankId === tank.id && row.planCaseId === null);
  const period = periodInForce(own, at);
  if (period === null) return 0;
  const { kPerDay, cKgPerDay } = rateOf(period.basis);
  return kPerDay + (tank.maximumFillKg > 0 ? cKgPerDay / tank.maximumFillKg : 0);
};

/** Draws from the tank with the highest loss first, or by rank, as the forecast does. */
const drawnLines = (
  entities: EntitySet,
  books: RecordBooks,
  flight: Flight,
  at: number,
  propellantId: string,
  grams: number,
): Posting[] => {
  if (flight.origin.kind === "source") return [line("source", flight.origin.sourceId, propellantId, -grams)];
  const depotId = flight.origin.depotId;
  const tanks = entities.tank
    .filter((tank) => tank.ownerKind === "depot" && tank.ownerId === depotId && tank.propellantId === propellantId)
    .map((tank) => ({ tank, held: tankGrams(entities, books, tank, at).modelGrams }))
    .map((row) => ({ ...row, loss: lossShare(entities, row.tank, at) }))
    .toSorted(
      (a, b) =>
        (a.tank.rank ?? Infinity) - (b.tank.rank ?? Infinity) || b.loss - a.loss || (a.tank.id < b.tank.id ? -1 : 1),
    );
  let rest = grams;
  const lines = tanks.map(({ tank, held }) => {
    const part = Math.min(rest, held);
    rest -= part;
    return line("tank", tank.id, propellantId, -part);
  });
  if (rest > 0)
    throw new PlanningError(
      "refused",
      `The books of ${depotId} hold ${toKg(grams - rest)} kg of ${propellantId} then; ${toKg(grams)} kg cannot have been loaded there. Record a gauge reading first, or correct the load.`,
      "loads",
    );
  return lines;
};

const isSame = (entities: EntitySet, flight: Flight, propellantId: string) => {
  const craft = entities.craft.find((row) => row.id === flight.craftId);
  const craftClass = entities.craftClass.find((row) => row.id === craft?.classId);
  return craftClass?.propellants.some((row) => row.propellantId === propellantId) ?? false;
};

/** The flight's dates and loads follow in every plan case; its coast keeps its planned length. */
export const recordDeparture = (books: RecordBooks, input: Input<"record.departure">, recorder: Recorder): Step => {
  const entities = books.entities();
  const flight = flightIn(entities, input.flightId, ["planned", "firm"]);
  const loads = gramsByPropellant(
    input.loads.map(({ propellantId, loadedKg }) => ({ propellantId, massKg: loadedKg })),
    "loads",
  );
  input.loads.forEach(({ propellantId }, i) => {
    if (!isSame(entities, flight, propellantId))
      throw new PlanningError("refused", `${flight.name} cannot carry ${propellantId}.`, `loads.${i}.propellantId`);
  });
  const lines = [...loads].flatMap(([propellantId, grams]) => [
    line("transit", flight.key, propellantId, grams),
    ...drawnLines(entities, books, flight, input.at, propellantId, grams),
  ]);
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
