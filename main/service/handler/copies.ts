/** Copies that are kept of the ledger: listed, made by name, looked at, gone back to. */
import type { OperationName } from "../../../app/contract/contract.ts";
import { PlanningError } from "../../../app/ground/failure.ts";
import type { LedgerInfo } from "../../../app/ledger/ledger-view.ts";
import { type LedgerState, goingBack } from "../../../app/copies/go-back.ts";
import { ledgerInfo } from "../../../app/ledger/plan-view.ts";
import { formatMinute } from "../../../app/format/time.ts";
import type { LedgerStore } from "../../../app/contract/store.ts";
import type { Context, HandlersOf } from "../context.ts";

const stateOf = (store: LedgerStore): LedgerState => ({
  document: store.document(),
  revision: store.header().revision,
  newestStep: null,
});

const refuseChanged = (store: LedgerStore, revision: number, { ledger }: Context): void => {
  if (ledger.store() !== store || store.header().revision !== revision)
    throw new PlanningError(
      "refused",
      "The ledger changed since this was looked at. Nothing was changed; look at it again.",
      "revision",
    );
};

const goBack = async (copyId: string, revision: number, context: Context): Promise<LedgerInfo> => {
  const { ledger, files, copies, environment } = context;
  const store = ledger.store();
  refuseChanged(store, revision, context);
  const { path } = store.header();
  const found = copies.find(path, copyId);
  const of = found.copy.kind === "day" ? `of ${found.copy.name}` : found.copy.name;
  const at = environment.now();
  await copies.keep(store, `Before going back to the copy ${of} ${formatMinute(at).replaceAll(":", "")}`, at);
  // An edit may have come in while the ledger as it is was kept.
  refuseChanged(store, revision, context);
  let isPutBack = false;
  try {
    ledger.reopen(
      () => {
        files.putBack(found.path, path, false);
        isPutBack = true;
      },
      () => files.open(path),
    );
  } catch (error) {
    if (!isPutBack) throw error;
    const why = error instanceof Error ? error.message : String(error);
    throw new PlanningError(
      "storage",
      `The copy was put back, but cannot be opened now. ${why} Open the ledger again.`,
    );
  }
  return ledgerInfo(ledger.store());
};

export const copiesHandlers: HandlersOf<Extract<OperationName, `copies.${string}`>> = {
  "copies.list": (_input, { ledger, copies }) => copies.list(ledger.store().header().path),
  "copies.of": ({ path }, { copies }) => copies.list(path),
  "copies.keep": async ({ name }, { ledger, copies, environment }) =>
    await copies.keep(ledger.store(), name, environment.now()),
  "copies.look": ({ copyId }, { ledger, files, copies }) => {
    const store = ledger.store();
    const found = copies.find(store.header().path, copyId);
    return goingBack(found.copy, stateOf(store), files.state(found.path), (id) => store.stepAt(id));
  },
  "copies.goBack": async ({ copyId, revision }, context) => await goBack(copyId, revision, context),
  "copies.putBack": ({ path, copyId }, { ledger, files, copies }) => {
    if (ledger.isOpen(path))
      throw new PlanningError("refused", "That ledger is open: go back to a copy of it instead.", "path");
    files.putBack(copies.find(path, copyId).path, path, true);
    return ledger.replace(() => files.open(path), ledgerInfo);
  },
};
