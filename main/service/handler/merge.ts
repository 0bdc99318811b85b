/** The records of another ledger: what they would bring, and bringing them in. */
import { basename } from "node:path";
import type { OperationName } from "../../../app/contract/contract.ts";
import { PlanningError } from "../../../app/contract/failure.ts";
import type { MergeChoices } from "../../../app/merge/merge-choices.ts";
import { type Merge, mergeLedgers } from "../../../app/merge/merge.ts";
import type { Context, HandlersOf } from "../context.ts";
import { commitStep, recorderOf } from "../step.ts";

const refuseItself = (path: string, { session }: Context): void => {
  if (session.isOpen(path))
    throw new PlanningError("refused", "That is the ledger which is open: there is nothing to merge with itself.");
};

const mergeWith = (path: string, choices: MergeChoices, context: Context): Merge => {
  const ours = context.session.store().document();
  refuseItself(path, context);
  const theirs = context.files.read(path);
  return mergeLedgers({ ours, theirs, fileName: basename(path), ...choices }, recorderOf(context));
};

export const mergeHandlers: HandlersOf<Extract<OperationName, `merge.${string}`>> = {
  "merge.preview": ({ path, ...choices }, context) => mergeWith(path, choices, context).view,
  "merge.take": ({ path, fingerprint, ...choices }, context) => {
    const { view, step } = mergeWith(path, choices, context);
    if (view.fingerprint !== fingerprint)
      throw new PlanningError(
        "refused",
        "One of the two ledgers changed since this was looked at. Nothing was written; look at it again.",
        "fingerprint",
      );
    const [open] = view.conflicts.filter(({ id }) => view.undecided.includes(id));
    if (open !== undefined)
      throw new PlanningError("refused", `${open.about} is not decided yet. Nothing was written.`, "decisions");
    const [fault] = view.outcome.blocked;
    if (fault !== undefined) throw new PlanningError("refused", `Nothing was written. ${fault}`, "decisions");
    return commitStep(context, step);
  },
};
