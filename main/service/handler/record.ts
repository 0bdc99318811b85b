/** What really happened, turned into steps by app/records and committed. */
import { contract, type Input, type OperationName } from "../../../app/contract/contract.ts";
import { type RecordName } from "../../../app/records/record-input.ts";
import type { LedgerInfo } from "../../../app/ledger/ledger-view.ts";
import { parseInput } from "../../../app/ground/parse-input.ts";
import { previewRecord, recordSteps } from "../../../app/records/preview.ts";
import type { LedgerBooks, Step } from "../../../app/ledger/books.ts";
import { recordCorrection } from "../../../app/records/record-correct.ts";
import { recordedAs } from "../../../app/records/recorded-as.ts";
import type { Recorder } from "../../../app/records/recorder.ts";
import { recordEntry } from "../../../app/records/record-entry.ts";
import { recordReverse, recordWithdrawal } from "../../../app/records/record-reverse.ts";
import type { Context, HandlersOf } from "../context.ts";
import { commitStep, recorderOf } from "../step.ts";

const record =
  <N extends RecordName>(name: N) =>
  (input: Input<N>, context: Context): LedgerInfo =>
    commitStep(context, recordSteps[name](context.ledger.store(), input, recorderOf(context)));

export const recordHandlers: HandlersOf<Extract<OperationName, `record.${string}`>> = {
  "record.reading": record("record.reading"),
  "record.departure": record("record.departure"),
  "record.arrival": record("record.arrival"),
  "record.loss": record("record.loss"),
  "record.loading": record("record.loading"),
  "record.return": record("record.return"),
  "record.standDown": record("record.standDown"),
  "record.closing": record("record.closing"),
  "record.withdrawReading": (input, context) =>
    commitStep(context, recordWithdrawal(context.ledger.store(), input, recorderOf(context))),
  "record.entry": (input, context) =>
    commitStep(context, recordEntry(context.ledger.store(), input, recorderOf(context))),
  "record.reverse": (input, context) =>
    commitStep(context, recordReverse(context.ledger.store(), input, recorderOf(context))),
  "record.correct": ({ wrong, reason, record: name, input }, context) => {
    const make = (books: LedgerBooks, recorder: Recorder): Step => {
      if (name === "record.entry")
        return recordEntry(books, parseInput<Input<"record.entry">>(contract[name].input, input), recorder);
      const steps: (books: LedgerBooks, input: never, recorder: Recorder) => Step = recordSteps[name];
      return steps(books, parseInput<Input<RecordName>>(contract[name].input, input) as never, recorder);
    };
    return commitStep(context, recordCorrection(context.ledger.store(), { wrong, reason }, make, recorderOf(context)));
  },
  "record.recorded": ({ entryId, planCaseId }, context) => recordedAs(context.ledger.store(), entryId, planCaseId),
  "record.preview": ({ record: name, input, wrong }, context) =>
    previewRecord(
      context.ledger.store(),
      name,
      parseInput<Input<RecordName>>(contract[name].input, input),
      recorderOf(context),
      wrong,
    ),
};
