/** The records of another ledger: what they would bring, and bringing them in. */
import { basename } from "node:path";
import type { OperationName } from "../../../app/contract/contract.ts";
import { PlanningError } from "../../../app/ground/failure.ts";
import type { MergeChoices } from "../../../app/merge/merge-choices.ts";
import { type Merge, type MergeInput, mergeLedgers } from "../../../app/merge/merge.ts";
import type { Context, HandlersOf } from "../context.ts";
import { commitStep, recorderOf } from "../step.ts";
import { ask } from "../work/ask.ts";

const refuseItself = (path: string, { ledger }: Context): void => {
  if (ledger.isOpen(path))
    throw new PlanningError("refused", "That is the ledger which is open: there is nothing to merge with itself.");
};

/** Both ledgers as they are now. */
const bothWith = (path: string, choices: MergeChoices, context: Context): MergeInput => {
  const ours = context.ledger.store().document();
  refuseItself(path, context);
  const theirs = context.files.read(path);
  return { ours, theirs, fileName: basename(path), ...choices };
};

const mergeWith = (path: string, choices: MergeChoices, context: Context): Merge =>
  mergeLedgers(bothWith(path, choices, context), recorderOf(context));

export const mergeHandlers: HandlersOf<Extract<OperationName, `merge.${string}`>> = {
  "merge.preview": async ({ path, ...choices }, context) => {
    const { author, recordedAt } = recorderOf(context);
    return await ask(context, "merge.compare", null, { ...bothWith(path, choices, context), author, recordedAt });
  },
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
