/** What a record would write, found by making its step and not committing it. */
import type { RecordInput, RecordName } from "./record-input.ts";
import type { RecordPreview } from "../ledger/ledger-view.ts";
import { PlanningError } from "../ground/failure.ts";
import { farAhead } from "../ledger/impossible-reading.ts";
import type { LedgerBooks, Step } from "../ledger/books.ts";
import { composeSteps } from "./compose-steps.ts";
import { levelChanges } from "./level-change.ts";
import { recordArrival } from "./record-arrival.ts";
import { type Wrong, recordCorrection } from "./record-correct.ts";
import { recordClosing } from "./record-closing.ts";
import { recordDeparture } from "./record-departure.ts";
import { recordLoading } from "./record-loading.ts";
import { recordLoss } from "./record-loss.ts";
import { recordReading } from "./record-reading.ts";
import { recordReturn } from "./record-return.ts";
import { recordStandDown } from "./record-stand-down.ts";
import type { RecordBooks, Recorder } from "./recorder.ts";

type Make<N extends RecordName> = (store: LedgerBooks, input: RecordInput<N>, recorder: Recorder) => Step;

type MakeStep = (books: RecordBooks) => Step;

/** What is recorded in one step: what happened before without a record yet, then what is meant. */
const inOneStep = (store: LedgerBooks, earlier: readonly MakeStep[], meant: MakeStep): Step =>
  earlier.length === 0 ? meant(store) : composeSteps(store, [...earlier, meant]);

type Arrival = RecordInput<"record.arrival">;

/** The departure of an arrival, where that has no record yet. */
const departureOf = ({ departure, flightId }: Arrival, recorder: Recorder): readonly MakeStep[] =>
  departure === undefined ? [] : [(books) => recordDeparture(books, { ...departure, flightId }, recorder)];

/** Arrivals that have no record yet, each after its departure. */
const arrivalsOf = (arrivals: readonly Arrival[] | undefined, recorder: Recorder): readonly MakeStep[] =>
  (arrivals ?? []).flatMap((arrived) => [
    ...departureOf(arrived, recorder),
    (books: RecordBooks) => recordArrival(books, arrived, recorder),
  ]);

const departure: Make<"record.departure"> = (store, { arrivals, ...input }, recorder) =>
  inOneStep(store, arrivalsOf(arrivals, recorder), (books) => recordDeparture(books, input, recorder));

const arrival: Make<"record.arrival"> = (store, input, recorder) =>
  inOneStep(store, departureOf(input, recorder), (books) => recordArrival(books, input, recorder));

const loading: Make<"record.loading"> = (store, { arrivals, ...input }, recorder) =>
  inOneStep(store, arrivalsOf(arrivals, recorder), (books) => recordLoading(books, input, recorder));

const comingHome: Make<"record.return"> = (store, { loading: before, ...input }, recorder) => {
  const { sortieId } = input;
  const loaded = before && ((books: RecordBooks) => recordLoading(books, { ...before, sortieId }, recorder));
  return inOneStep(store, loaded === undefined ? [] : [loaded], (books) => recordReturn(books, input, recorder));
};

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
  "record.departure": notFarAhead(departure),
  "record.arrival": notFarAhead(arrival),
  "record.loss": notFarAhead<"record.loss">(recordLoss),
  "record.loading": notFarAhead(loading),
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
  /** What it is to stand in place of. */
  wrong?: Wrong,
): RecordPreview => {
  const make: Make<N> = recordSteps[record];
  if (wrong === undefined) {
    const { label, entries, reversedEntryIds } = make(store, input, recorder);
    return { label, entries, reversedEntryIds, correction: null };
  }
  const right = (books: LedgerBooks, own: Recorder): Step => make(books, input, own);
  const step = recordCorrection(store, { wrong, reason: "" }, right, recorder);
  const { label, entries, reversedEntryIds } = step;
  const reversed = reversedEntryIds.map((id) => store.entry(id));
  return { label, entries, reversedEntryIds, correction: { reversed, levels: levelChanges(store, step, reversed) } };
};
