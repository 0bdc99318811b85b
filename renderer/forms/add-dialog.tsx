/** A new thing: the same form as in the inspector, over a draft; added as one step. */
import { useState } from "react";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { Change, Entity, EntityKind } from "../../app/entity/entities.ts";
import { kindWords } from "../../app/ledger/change-line.ts";
import type { Tank } from "../../app/entity/tank.ts";
import type { DialogProps } from "../widgets/dialog-props.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Dialog } from "../widgets/dialog.tsx";
import { FormSection } from "../widgets/form-row.tsx";
import { type Editing, type Fault, checkEntity, faultOfFailure, wordsBeside, wordsFor } from "../editing/editing.ts";
import { EntityForm } from "./entity-form.tsx";
import { nameOf } from "../names/entity-words.ts";
import { freshOpening, OpeningFields, openingEntry } from "./opening-fields.tsx";
import { freshEntity } from "./fresh.ts";
import { withNewId } from "./place-entity.ts";

interface AddDialogProps<K extends EntityKind> {
  readonly kind: K;
  readonly at?: number | null;
  readonly nearId?: string | null;
  /** Laid over the usual defaults. */
  readonly preset?: Partial<Entity<K>>;
  /** Selects what was added; true where it is not given. */
  readonly isSelecting?: boolean;
  readonly onClose: () => void;
}

export const AddDialog = <K extends EntityKind>(props: AddDialogProps<K>) => {
  const { kind, at = null, nearId = null, preset, isSelecting = true, onClose } = props;
  const plan = useApp((state) => state.current?.plan ?? null);
  const [fresh] = useState(() => (plan === null ? null : freshEntity(kind, { plan, at, nearId })));
  if (plan === null || fresh === null) return null;
  if (fresh.ok) {
    const initial: Entity<K> = { ...fresh.value, ...preset };
    return <AddForm kind={kind} initial={initial} plan={plan} isSelecting={isSelecting} onClose={onClose} />;
  }
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
  readonly isSelecting: boolean;
  readonly onClose: () => void;
}

const AddForm = <K extends EntityKind>({ kind, initial, plan, isSelecting, onClose }: AddFormProps<K>) => {
  const session = useSession();
  const [value, setValue] = useState(initial);
  const [fault, setFault] = useState<Fault | null>(null);
  const [opening, setOpening] = useState(() => freshOpening(plan));
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
    const changes = [{ op: "put", kind, value: placed } as unknown as Change];
    const entry = kind === "tank" ? openingEntry(opening, placed as Tank, plan) : null;
    const reply =
      entry === null
        ? await session.edit(label, changes)
        : await session.command("plan.edit", { label, reason: "", changes, openings: [entry] });
    if (!reply.ok) setFault(faultOfFailure(reply.failure));
    else if (isSelecting) session.select({ kind, id: placed.id });
    return reply.ok;
  };
  return (
    <Dialog
      title={`Add ${kindWords[kind]}`}
      onClose={onClose}
      confirm="Add"
      onConfirm={add}
      fault={wordsBeside(fault, value)}
    >
      <EntityForm kind={kind} edit={edit} />
      {kind === "tank" && (
        <FormSection title="Opening level">
          <p className="form-advice">
            What is in it already: stated here, once, with where it came from. It is no gauge reading, and nothing of it
            is unaccounted.
          </p>
          <OpeningFields
            opening={opening}
            tank={value as Tank}
            plan={plan}
            emptyWords="empty"
            onChange={(next) => {
              setFault(null);
              setOpening(next);
            }}
          />
        </FormSection>
      )}
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
