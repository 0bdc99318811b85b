/** A new thing: the same form as in the inspector, over a draft; added as one step. */
import { useState } from "react";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { Change, Entity, EntityKind } from "../../app/entity/entities.ts";
import { listed } from "../../app/words/counted.ts";
import { kindWords } from "../../app/ledger/change-line.ts";
import type { Flight } from "../../app/entity/flight.ts";
import type { Sortie } from "../../app/entity/sortie.ts";
import { DAY_MS } from "../../app/ground/quantity.ts";
import type { Tank } from "../../app/entity/tank.ts";
import type { DialogProps } from "../widgets/dialog-props.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Dialog } from "../widgets/dialog.tsx";
import { FormSection } from "../widgets/form-row.tsx";
import { type Editing, type Fault, checkEntity, faultOfFailure, wordsBeside, wordsFor } from "../editing/editing.ts";
import { EntityForm } from "./entity-form.tsx";
import { nameOf } from "../names/entity-words.ts";
import { freshOpening, OpeningFields, openingEntry } from "./opening-fields.tsx";
import { followed } from "./follow.ts";
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
  const [fresh, setFresh] = useState(() => (plan === null ? null : freshEntity(kind, { plan, at, nearId })));
  const [added, setAdded] = useState<readonly string[]>([]);
  const session = useSession();
  // Each further one begins anew; from the plan as it is now, so that its name is the next.
  const another = (name: string, nextAt: number | null): void => {
    const now = session.store.get().current?.plan;
    if (now !== undefined) setFresh(freshEntity(kind, { plan: now, at: nextAt ?? at, nearId }));
    setAdded((before) => [...before, name]);
  };
  const round = added.length;
  if (plan === null || fresh === null) return null;
  if (fresh.ok) {
    const initial: Entity<K> = { ...fresh.value, ...preset };
    return (
      <AddForm
        key={round}
        kind={kind}
        initial={initial}
        plan={plan}
        added={added}
        isSelecting={isSelecting}
        onAnother={another}
        onClose={onClose}
      />
    );
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
  /** What this dialog has added already, by name. */
  readonly added: readonly string[];
  readonly isSelecting: boolean;
  /** Begins the next one, after the one of that name; `at`: when that one is over, null where it has no dates. */
  readonly onAnother: (name: string, at: number | null) => void;
  readonly onClose: () => void;
}

/** When a flight leaves the port or a sortie is back, so that the next does not lie on it; null: it has no dates. */
const endOf = (value: object): number | null => {
  const { arriveAt, berthDays = 0, returnAt } = value as Partial<Flight & Sortie>;
  return arriveAt === undefined ? (returnAt ?? null) : arriveAt + berthDays * DAY_MS;
};

const AddForm = <K extends EntityKind>(props: AddFormProps<K>) => {
  const { kind, initial, plan, added, isSelecting, onAnother, onClose } = props;
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
      setValue((before) => followed(plan, kind, before, patch));
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
    if (reply.ok) session.announce(`${label}: done.`);
    return reply.ok;
  };
  const addAnother = async (): Promise<boolean> => {
    if (await add()) onAnother(nameOf(plan, kind, value), endOf(value));
    return false;
  };
  return (
    <Dialog
      title={`Add ${kindWords[kind]}`}
      onClose={onClose}
      confirm="Add"
      onConfirm={add}
      another={{ words: "Add another", onPress: addAnother }}
      fault={wordsBeside(fault, value)}
    >
      {added.length > 0 && <p className="form-advice">Added: {listed(added)}.</p>}
      <EntityForm kind={kind} edit={edit} />
      {kind === "tank" && (
        <FormSection title="Opening level">
          <p className="form-advice">
            What is in it already: entered here, once, with where it came from. It is no gauge reading, and nothing of
            it is unaccounted.
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
