/** A gauge reading: kept as measured, and, if taken into the books, the difference booked as boil-off and unaccounted. */
import { PlanningError } from "../ground/failure.ts";
import { impossibleReading } from "../ledger/impossible-reading.ts";
import type { RecordInput } from "./record-input.ts";
import { formatMinute } from "../format/time.ts";
import { toGrams } from "../ledger/journal.ts";
import type { Step } from "../ledger/books.ts";
import { tankGrams } from "./level-state.ts";
import { entryOf, statingLines } from "./postings.ts";
import { type RecordBooks, type Recorder, stepOf } from "./recorder.ts";
import { withRestatement } from "./restate.ts";
import { tankIn } from "./subject.ts";

/** Boil-off is what the loss model says since the last stated level; what remains to the reading is unaccounted. */
export const recordReading = (books: RecordBooks, input: RecordInput<"record.reading">, recorder: Recorder): Step => {
  const { takeIntoBooks, ...measured } = input;
  const entities = books.entities();
  const tank = tankIn(entities, input.tankId, "tankId");
  const label = `Reading of ${tank.name}, ${formatMinute(input.at)}`;
  const openedAt = books.openings().find((row) => row.tankId === tank.id)?.at ?? null;
  const impossible = impossibleReading(entities, input, openedAt);
  if (impossible !== null) throw new PlanningError("refused", impossible.reason, impossible.field);
  const plain = { ...measured, entryId: null, isWithdrawn: false };
  if (!takeIntoBooks) return stepOf({ label, readings: [plain] }, recorder);
  if (openedAt === null)
    throw new PlanningError(
      "refused",
      `The books of ${tank.name} are not open: a reading would book all that is in it as unaccounted. State its opening level first.`,
      "takeIntoBooks",
    );
  const { bookGrams, modelGrams } = tankGrams(entities, books, tank, input.at);
  const lines = statingLines(tank, bookGrams, modelGrams, toGrams(input.massKg));
  const entry = entryOf({ at: input.at, kind: "reading", note: input.note }, lines, recorder);
  const draft = {
    label,
    entries: entry === null ? [] : [entry],
    readings: [{ ...plain, entryId: entry?.id ?? null }],
  };
  return stepOf(withRestatement(books, draft, recorder), recorder);
};
