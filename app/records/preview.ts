/** What a record would write, found by making its step and not committing it. */
import type { RecordInput, RecordName } from "./record-input.ts";
import type { RecordPreview } from "../ledger/ledger-view.ts";
import { PlanningError } from "../ground/failure.ts";
import { farAhead } from "../ledger/impossible-reading.ts";
import type { LedgerBooks, Step } from "../ledger/books.ts";
import { composeSteps } from "./compose-steps.ts";
import { recordArrival } from "./record-arrival.ts";
import { recordClosing } from "./record-closing.ts";
import { recordDeparture } from "./record-departure.ts";
import { recordLoading } from "./record-loading.ts";
import { recordLoss } from "./record-loss.ts";
import { recordReading } from "./record-reading.ts";
import { recordReturn } from "./record-return.ts";
import { recordStandDown } from "./record-stand-down.ts";
import type { RecordBooks, Recorder } from "./recorder.ts";

type Make<N extends RecordName> = (store: LedgerBooks, input: RecordInput<N>, recorder: Recorder) => Step;

/** An arrival; with the departure before it, where that has no record yet, as one step. */
const arrival: Make<"record.arrival"> = (store, { departure, ...input }, recorder) =>
  departure === undefined
    ? recordArrival(store, input, recorder)
    : bothOf(
        store,
        (books) => recordDeparture(books, { ...departure, flightId: input.flightId }, recorder),
        (books) => recordArrival(books, input, recorder),
      );

/** A return; with the loading before it, where that has no record yet, as one step. */
const comingHome: Make<"record.return"> = (store, { loading, ...input }, recorder) =>
  loading === undefined
    ? recordReturn(store, input, recorder)
    : bothOf(
        store,
        (books) => recordLoading(books, { ...loading, sortieId: input.sortieId }, recorder),
        (books) => recordReturn(books, input, recorder),
      );

const bothOf = (store: LedgerBooks, earlier: (books: RecordBooks) => Step, later: (books: RecordBooks) => Step): Step =>
  composeSteps(store, [earlier, later]);

/** So long after the end of the last plan case a late event may still be recorded, days; later, its year is mistyped. */
const GRACE_DAYS = 366;

const notFarAhead =
  <N extends RecordName>(make: Make<N>): Make<N> =>
  (store, input, recorder) => {
    const { at } = input as { readonly at?: number };
    const reason = at === undefined ? null : farAhead(store.entities(), at, GRACE_DAYS);
    if (reason !== null) throw new PlanningError("refused", reason, "at");
    return make(store, input, recorder);
  };

/** The step of each record; the commands that write and the preview take it from here. */
export const recordSteps: { readonly [N in RecordName]: Make<N> } = {
  "record.reading": recordReading,
  "record.departure": notFarAhead<"record.departure">(recordDeparture),
  "record.arrival": notFarAhead(arrival),
  "record.loss": notFarAhead<"record.loss">(recordLoss),
  "record.loading": notFarAhead<"record.loading">(recordLoading),
  "record.return": notFarAhead(comingHome),
  "record.standDown": recordStandDown,
  "record.closing": notFarAhead<"record.closing">(recordClosing),
};

/** Input already checked against the contract. Throws as the record itself would. */
export const previewRecord = <N extends RecordName>(
  store: LedgerBooks,
  record: N,
  input: RecordInput<N>,
  recorder: Recorder,
): RecordPreview => {
  const make: Make<N> = recordSteps[record];
  const { label, entries, reversedEntryIds } = make(store, input, recorder);
  return { label, entries, reversedEntryIds };
};
