/** Writes steps to the open ledger in the name of whoever sits here. */
import type { LedgerInfo } from "../../app/ledger/ledger-view.ts";
import type { Change } from "../../app/entity/entities.ts";
import { ledgerInfo } from "../../app/ledger/plan-view.ts";
import type { Step } from "../../app/ledger/books.ts";
import type { Recorder } from "../../app/records/recorder.ts";
import type { Context } from "./context.ts";

export const recorderOf = ({ environment }: Context): Recorder => ({
  author: environment.author(),
  recordedAt: environment.now(),
  newId: () => environment.newId("entry"),
});

/** Commits one step and answers with the ledger as it is then. */
export const commitStep = (context: Context, step: Step): LedgerInfo => {
  const store = context.ledger.store();
  store.commit(step);
  return ledgerInfo(store);
};

const MAX_LABEL = 120;

/** A step that changes the plan or the as-of instant and records nothing. */
export const planStep = (
  context: Context,
  label: string,
  part: { readonly reason?: string; readonly changes?: readonly Change[]; readonly asOfAt?: number | null },
): Step => ({
  label: label.slice(0, MAX_LABEL),
  reason: part.reason ?? "",
  author: context.environment.author(),
  recordedAt: context.environment.now(),
  changes: part.changes ?? [],
  entries: [],
  readings: [],
  withdrawnReadingIds: [],
  reversedEntryIds: [],
  ...(part.asOfAt === undefined ? {} : { asOfAt: part.asOfAt }),
});
