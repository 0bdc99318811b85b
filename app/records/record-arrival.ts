/** A flight arrived: what it carried is parted into what each tank took and what was lost, left aboard or vented. */
import type { Input } from "../contract/contract.ts";
import { PlanningError } from "../contract/failure.ts";
import { findEntity } from "../ledger/entity-index.ts";
import { accountId, toGrams, toKg } from "../ledger/journal.ts";
import type { Step } from "../ledger/store.ts";
import { entryOf, gramsByPropellant, line } from "./postings.ts";
import { type RecordBooks, type Recorder, stepOf } from "./recorder.ts";
import { withRestatement } from "./restate.ts";
import { flightEverywhere, flightIn, tankOf } from "./subject.ts";

const nameOf = (books: RecordBooks, propellantId: string) =>
  findEntity(books.entities(), "propellant", propellantId)?.name ?? propellantId;

/** Whatever of the load is neither taken, lost in the handover, left aboard nor vented was lost on the way. */
export const recordArrival = (books: RecordBooks, input: Input<"record.arrival">, recorder: Recorder): Step => {
  const entities = books.entities();
  const flight = flightIn(entities, input.flightId, ["departed"]);
  if (input.at < flight.departAt)
    throw new PlanningError("refused", `${flight.name} cannot arrive before it departed.`, "at");
  const lost = gramsByPropellant(input.handoverLoss, "handoverLoss");
  const aboard = gramsByPropellant(input.leftAboard, "leftAboard");
  const vented = gramsByPropellant(input.vented, "vented");
  const taken = input.taken.map(({ tankId, massKg }, i) => ({
    tank: tankOf(entities, tankId, flight.depotId, `taken.${i}.tankId`),
    grams: toGrams(massKg),
  }));
  const propellantIds = new Set([
    ...flight.loads.map((load) => load.propellantId),
    ...taken.map(({ tank }) => tank.propellantId),
    ...[lost, aboard, vented].flatMap((grams) => [...grams.keys()]),
  ]);
  const lines = [...propellantIds].flatMap((id) => {
    const carried = toGrams(books.balanceKg(accountId({ kind: "transit", ownerId: flight.key }), id));
    const given = taken.filter(({ tank }) => tank.propellantId === id);
    const [h, a, v] = [lost.get(id) ?? 0, aboard.get(id) ?? 0, vented.get(id) ?? 0];
    const said = given.reduce((sum, { grams }) => sum + grams, 0) + h + a + v;
    if (said > carried)
      throw new PlanningError(
        "refused",
        `${flight.name} left with ${toKg(carried)} kg of ${nameOf(books, id)}; taken, lost, left aboard and vented come to ${toKg(said)} kg.`,
        "taken",
      );
    return [
      line("transit", flight.key, id, -carried),
      ...given.map(({ tank, grams }) => line("tank", tank.id, id, grams)),
      line("handover loss", flight.depotId, id, h),
      line("residual", flight.craftId, id, a),
      line("vented", flight.depotId, id, v),
      line("in-flight loss", flight.craftId, id, carried - said),
    ];
  });
  const moved = lines.filter((posting) => posting.grams !== 0);
  const entry = entryOf({ at: input.at, kind: "arrival", subjectKey: flight.key, note: input.note }, moved, recorder);
  const changes = flightEverywhere(entities, flight.key, (row) => ({ ...row, status: "arrived", arriveAt: input.at }));
  const draft = { label: `${flight.name} arrived`, changes, entries: entry === null ? [] : [entry] };
  return stepOf(withRestatement(books, draft, recorder), recorder);
};
