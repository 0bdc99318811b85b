/** Closes the books of a depot at an instant: each tank brought to what the loss model says, or to what was measured. */
import type { RecordInput } from "./record-input.ts";
import { PlanningError } from "../ground/failure.ts";
import { findEntity } from "../entity/entity-index.ts";
import { impossibleReading } from "../ledger/impossible-reading.ts";
import { toGrams } from "../ledger/journal.ts";
import { formatMinute } from "../format/time.ts";
import type { Step } from "../ledger/books.ts";
import { tankGrams } from "./level-state.ts";
import { entryOf, statingLines } from "./postings.ts";
import { type RecordBooks, type Recorder, stepOf } from "./recorder.ts";
import { withRestatement } from "./restate.ts";
import { tankOf } from "./subject.ts";

export const recordClosing = (books: RecordBooks, input: RecordInput<"record.closing">, recorder: Recorder): Step => {
  const entities = books.entities();
  const depot = findEntity(entities, "depot", input.depotId);
  if (depot === null) throw new PlanningError("not found", `There is no depot ${input.depotId}.`, "depotId");
  const measured = new Map(
    input.measured.map((row, i) => [tankOf(entities, row.tankId, depot.id, `measured.${i}.tankId`).id, row]),
  );
  if (measured.size < input.measured.length)
    throw new PlanningError("invalid input", "A tank stands here twice.", "measured");
  const openedAt = new Map(books.openings().map((row) => [row.tankId, row.at]));
  input.measured.forEach((row, i) => {
    const impossible = impossibleReading(entities, { ...row, at: input.at }, openedAt.get(row.tankId) ?? null);
    if (impossible === null) return;
    const field = impossible.field === "at" ? "at" : `measured.${i}.${impossible.field}`;
    throw new PlanningError("refused", impossible.reason, field);
  });
  const tanks = entities.tank.filter((tank) => tank.ownerKind === "depot" && tank.ownerId === depot.id);
  const lines = tanks.flatMap((tank) => {
    const { bookGrams, modelGrams } = tankGrams(entities, books, tank, input.at);
    const found = measured.get(tank.id);
    return statingLines(tank, bookGrams, modelGrams, found === undefined ? modelGrams : toGrams(found.massKg));
  });
  const entry = entryOf({ at: input.at, kind: "closing", note: input.note }, lines, recorder);
  if (entry === null) throw new PlanningError("refused", `${depot.name} has no tank to close.`, "depotId");
  const readings = input.measured.map((row) => ({
    ...row,
    id: recorder.newId(),
    at: input.at,
    entryId: entry.id,
    isWithdrawn: false,
    note: input.note,
  }));
  const draft = { label: `Closing of ${depot.name}, ${formatMinute(input.at)}`, entries: [entry], readings };
  return stepOf(withRestatement(books, draft, recorder), recorder);
};
