/** What really happened, turned into steps by app/records and committed. */
import { contract, type Input, type OperationName } from "../../../app/contract/contract.ts";
import { type RecordName } from "../../../app/records/record-input.ts";
import type { LedgerInfo } from "../../../app/ledger/ledger-view.ts";
import { parseInput } from "../../../app/ground/parse-input.ts";
import { previewRecord, recordSteps } from "../../../app/records/preview.ts";
import { recordEntry } from "../../../app/records/record-entry.ts";
import { recordReverse, recordWithdrawal } from "../../../app/records/record-reverse.ts";
import type { Context, HandlersOf } from "../context.ts";
import { commitStep, recorderOf } from "../step.ts";

const record =
  <N extends RecordName>(name: N) =>
  (input: Input<N>, context: Context): LedgerInfo =>
    commitStep(context, recordSteps[name](context.session.store(), input, recorderOf(context)));

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
    commitStep(context, recordWithdrawal(context.session.store(), input, recorderOf(context))),
  "record.entry": (input, context) =>
    commitStep(context, recordEntry(context.session.store(), input, recorderOf(context))),
  "record.reverse": (input, context) =>
    commitStep(context, recordReverse(context.session.store(), input, recorderOf(context))),
  "record.preview": ({ record: name, input }, context) =>
    previewRecord(
      context.session.store(),
      name,
      parseInput<Input<RecordName>>(contract[name].input, input),
      recorderOf(context),
    ),
};
