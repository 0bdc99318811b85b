/** A sortie stood down: it drew nothing and will not fly. It is a fact of its own and moves no mass. */
import type { RecordInput } from "./record-input.ts";
import type { Step } from "../ledger/books.ts";
import { type RecordBooks, type Recorder, stepOf } from "./recorder.ts";
import { sortieEverywhere, sortieIn } from "./subject.ts";

/** Its planned dates stay: they say what did not happen. The note is kept as the reason. */
export const recordStandDown = (
  books: RecordBooks,
  input: RecordInput<"record.standDown">,
  recorder: Recorder,
): Step => {
  const entities = books.entities();
  const sortie = sortieIn(entities, input.sortieId, ["planned"]);
  const changes = sortieEverywhere(entities, sortie.key, (row) => ({
    ...row,
    status: "stood down",
    stoodDownAt: input.at,
  }));
  return stepOf({ label: `${sortie.name} stood down`, reason: input.note.slice(0, 500), changes }, recorder);
};
