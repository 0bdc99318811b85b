/** A flight was lost: what it carried is booked as lost in flight; one that never left loses nothing of ours. */
import type { RecordInput } from "./record-input.ts";
import { PlanningError } from "../ground/failure.ts";
import { accountId, toGrams } from "../ledger/journal.ts";
import type { Step } from "../ledger/books.ts";
import { entryOf, line } from "./postings.ts";
import { type RecordBooks, type Recorder, stepOf } from "./recorder.ts";
import { flightEverywhere, flightIn } from "./subject.ts";

export const recordLoss = (books: RecordBooks, input: RecordInput<"record.loss">, recorder: Recorder): Step => {
  const entities = books.entities();
  const flight = flightIn(entities, input.flightId, ["planned", "firm", "departed"]);
  const isUnderWay = flight.status === "departed";
  if (isUnderWay && input.at < flight.departAt)
    throw new PlanningError("refused", `${flight.name} cannot be lost before it departed.`, "at");
  const lines = entities.propellant.flatMap(({ id }) => {
    const grams = toGrams(books.balanceKg(accountId({ kind: "transit", ownerId: flight.key }), id));
    if (grams === 0) return [];
    return [line("transit", flight.key, id, -grams), line("in-flight loss", flight.craftId, id, grams)];
  });
  const what = { at: input.at, kind: "loss of flight", subjectKey: flight.key, note: input.note } as const;
  const entry = entryOf(what, lines, recorder);
  const changes = flightEverywhere(entities, flight.key, (row) => ({ ...row, status: "lost", lostAt: input.at }));
  return stepOf({ label: `${flight.name} was lost`, changes, entries: entry === null ? [] : [entry] }, recorder);
};
