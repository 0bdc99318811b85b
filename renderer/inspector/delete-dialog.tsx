/** Deleting a thing: what else goes with it, in every plan case, is said before. */
import { useEffect, useState } from "react";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Dialog } from "../widgets/dialog.tsx";
import { type RowRef, dependentWords, dependents, removals } from "./references.ts";

interface DeleteDialogProps {
  readonly roots: readonly RowRef[];
  readonly name: string;
  /** For the undo menu. */
  readonly label: string;
  readonly onClose: () => void;
}

/** The plans of all cases: what is shared may be used in any of them. */
const useAllPlans = (): readonly PlanSnapshot[] | null => {
  const session = useSession();
  const cases = useApp((state) => state.ledger?.planCases);
  const [plans, setPlans] = useState<readonly PlanSnapshot[] | null>(null);
  useEffect(() => {
    let isWanted = true;
    void Promise.all((cases ?? []).map(({ id }) => session.ask("plan.view", { planCaseId: id }))).then((views) => {
      if (isWanted) setPlans(views.flatMap((view) => (view === null ? [] : [view.plan])));
    });
    return () => {
      isWanted = false;
    };
  }, [session, cases]);
  return plans;
};

export const DeleteDialog = ({ roots, name, label, onClose }: DeleteDialogProps) => {
  const session = useSession();
  const plans = useAllPlans();
  const [fault, setFault] = useState<string | null>(null);
  const also = plans === null ? [] : dependents(plans, roots);
  const them = roots.length === 1 ? "it" : "them";
  const remove = async (): Promise<boolean> => {
    const changes = removals([...roots, ...also]);
    const reply = await session.edit(label.slice(0, 120), changes);
    if (reply.ok) session.select(null);
    else setFault(reply.failure.message);
    return reply.ok;
  };
  return (
    <Dialog
      title={`Delete ${name}?`}
      width="narrow"
      isDanger
      confirm={also.length === 0 ? "Delete" : "Delete all of it"}
      unable={plans === null ? "What depends on it is still being checked." : null}
      onConfirm={remove}
      onClose={onClose}
      fault={fault}
    >
      {plans === null && <p>Checking what depends on it…</p>}
      {plans !== null && also.length === 0 && <p>Nothing else in the plan refers to {them}.</p>}
      {also.length > 0 && (
        <p>
          {dependentWords(also)} {also.length === 1 ? "refers" : "refer"} to {them}, counting every plan case, and would
          be deleted with it.
        </p>
      )}
      <p className="form-advice">The records stay. Undo brings all of it back.</p>
    </Dialog>
  );
};
