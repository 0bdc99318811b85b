/** A new thing: the same form as in the inspector, over a draft; added as one step. */
import { useState } from "react";
import type { PlanSnapshot } from "../../app/forecast/plan.ts";
import type { Change, Entity, EntityKind } from "../../app/ledger/entities.ts";
import type { DialogProps } from "../dialogs.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Dialog } from "../widgets/dialog.tsx";
import { type Editing, type Fault, checkEntity, faultOfFailure, wordsFor } from "./editing.ts";
import { EntityForm } from "./entity-form.tsx";
import { kindWords, nameOf } from "./entity-words.ts";
import { freshEntity } from "./fresh.ts";
import { withNewId } from "./place-entity.ts";

interface AddDialogProps<K extends EntityKind> {
  readonly kind: K;
  readonly at?: number | null;
  readonly nearId?: string | null;
  readonly onClose: () => void;
}

export const AddDialog = <K extends EntityKind>({ kind, at = null, nearId = null, onClose }: AddDialogProps<K>) => {
  const plan = useApp((state) => state.current?.plan ?? null);
  const [fresh] = useState(() => (plan === null ? null : freshEntity(kind, { plan, at, nearId })));
  if (plan === null || fresh === null) return null;
  if (fresh.ok) return <AddForm kind={kind} initial={fresh.value} plan={plan} onClose={onClose} />;
  return (
    <Dialog title={`Add ${kindWords[kind]}`} width="narrow" onClose={onClose}>
      <p className="form-advice">{fresh.missing}</p>
    </Dialog>
  );
};

interface AddFormProps<K extends EntityKind> {
  readonly kind: K;
  readonly initial: Entity<K>;
  readonly plan: PlanSnapshot;
  readonly onClose: () => void;
}

const AddForm = <K extends EntityKind>({ kind, initial, plan, onClose }: AddFormProps<K>) => {
  const session = useSession();
  const [value, setValue] = useState(initial);
  const [fault, setFault] = useState<Fault | null>(null);
  const edit: Editing<Entity<K>> = {
    value,
    plan,
    isNew: true,
    isReadOnly: false,
    change: (patch) => {
      setFault(null);
      setValue((before) => ({ ...before, ...patch }));
    },
    faultOf: (field) => wordsFor(fault, field),
  };
  const add = async (): Promise<boolean> => {
    const placed = withNewId(plan, kind, value);
    const broken = checkEntity(kind, placed);
    if (broken !== null) {
      setFault(broken);
      return false;
    }
    const label = `Add ${kindWords[kind]} ${nameOf(plan, kind, placed)}`.slice(0, 120);
    const reply = await session.edit(label, [{ op: "put", kind, value: placed } as unknown as Change]);
    if (reply.ok) session.select({ kind, id: placed.id });
    else setFault(faultOfFailure(reply.failure));
    return reply.ok;
  };
  const isPlaced = fault !== null && fault.field in value;
  return (
    <Dialog
      title={`Add ${kindWords[kind]}`}
      onClose={onClose}
      confirm="Add"
      onConfirm={add}
      fault={fault === null || isPlaced ? null : fault.message}
    >
      <EntityForm kind={kind} edit={edit} />
    </Dialog>
  );
};

/** As the dialogs of actions: what was pointed at, and what is selected, give the defaults. */
const asDialog =
  (kind: EntityKind) =>
  ({ request, close }: DialogProps) => (
    <AddDialog kind={kind} at={request.at} nearId={request.subject?.id ?? null} onClose={close} />
  );

export const AddFlightDialog = asDialog("flight");
export const AddSortieDialog = asDialog("sortie");
export const AddLossPeriodDialog = asDialog("lossPeriod");
