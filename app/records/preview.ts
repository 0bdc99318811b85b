/** What a record would write, found by making its step and not committing it. */
import type { Input, RecordName } from "../contract/contract.ts";
import type { RecordPreview } from "../contract/ledger-view.ts";
import type { Step } from "../ledger/store.ts";
import { recordArrival } from "./record-arrival.ts";
import { recordClosing } from "./record-closing.ts";
import { recordDeparture } from "./record-departure.ts";
import { recordLoading } from "./record-loading.ts";
import { recordLoss } from "./record-loss.ts";
import { recordReading } from "./record-reading.ts";
import { recordReturn } from "./record-return.ts";
import { recordStandDown } from "./record-stand-down.ts";
import type { RecordBooks, Recorder } from "./recorder.ts";

type Make<N extends RecordName> = (books: RecordBooks, input: Input<N>, recorder: Recorder) => Step;

/** The step of each record; the commands that write and the preview take it from here. */
export const recordSteps: { readonly [N in RecordName]: Make<N> } = {
  "record.reading": recordReading,
  "record.departure": recordDeparture,
  "record.arrival": recordArrival,
  "record.loss": recordLoss,
  "record.loading": recordLoading,
  "record.return": recordReturn,
  "record.standDown": recordStandDown,
  "record.closing": recordClosing,
};

/** Input already checked against the contract. Throws as the record itself would. */
export const previewRecord = <N extends RecordName>(
  books: RecordBooks,
  record: N,
  input: Input<N>,
  recorder: Recorder,
): RecordPreview => {
  const make: Make<N> = recordSteps[record];
  const { label, entries, reversedEntryIds } = make(books, input, recorder);
  return { label, entries, reversedEntryIds };
};
