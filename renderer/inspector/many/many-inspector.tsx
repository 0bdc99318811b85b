/** Several flights and sorties at once: moved, given a status, copied, deleted, each as one step. */
import { useState } from "react";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import { useAction } from "../../actions/use-actions.ts";
import { formatDate } from "../../format/instant.ts";
import { nameOf } from "../../names/entity-words.ts";
import type { ManyRef } from "../../state/app-state.ts";
import { useApp, useSession } from "../../state/use-session.ts";
import { Button } from "../../widgets/button.tsx";
import { ChoiceField } from "../../widgets/choice-field.tsx";
import { FormSection } from "../../widgets/form-row.tsx";
import { NumberField } from "../../widgets/number-field.tsx";
import { DeleteDialog } from "../delete-dialog.tsx";
import { Deselect } from "../deselect.tsx";
import {
  type HandStatus,
  type ManyRow,
  type ManyStep,
  clearOfOriginals,
  copyMany,
  isMovable,
  isStatusOpen,
  manyWords,
  mostForCopies,
  roomToShift,
  rowsOfMany,
  setStatusOfMany,
  shiftMany,
  spanOf,
  statusesFor,
} from "./many-changes.ts";
import { READ_ONLY, firstOf } from "../../widgets/unable.ts";

/** Names that are shown; of more, how many. */
const MAX_NAMED = 12;

interface PartProps {
  readonly plan: PlanSnapshot;
  readonly rows: readonly ManyRow[];
  /** Does it; answers whether it was taken. */
  readonly act: (step: ManyStep) => Promise<boolean>;
}

export const ManyInspector = ({ plan, many }: { plan: PlanSnapshot; many: readonly ManyRef[] }) => {
  const session = useSession();
  const isReadOnly = useApp((state) => state.ledger?.readOnlyBecause !== null);
  const isTrial = useApp((state) => state.trial !== null);
  const [fault, setFault] = useState<string | null>(null);
  // As they were when it was asked: while they are being deleted they are not in the plan any more.
  const [deleting, setDeleting] = useState<readonly ManyRow[] | null>(null);
  const rows = rowsOfMany(plan, many);
  const isOpen = !isReadOnly && !isTrial && rows.length > 0;
  const act = async ({ label, changes }: ManyStep): Promise<boolean> => {
    const reply = await session.edit(label.slice(0, 120), changes);
    setFault(reply.ok ? null : reply.failure.message);
    if (reply.ok) session.announce(`${label}. Undo puts it back.`);
    return reply.ok;
  };
  const copyNext = async (): Promise<void> => {
    const { copies, ...step } = copyMany(plan, rows, clearOfOriginals(plan, rows));
    if (await act(step)) session.selectMany(copies);
  };
  const unable = firstOf(
    [isReadOnly, READ_ONLY],
    [isTrial, "End the what-if first, or keep it as a case."],
    [rows.length === 0, "Nothing is selected any more."],
  );
  useAction("edit.delete", () => setDeleting(rows), { unable });
  const isRoom = clearOfOriginals(plan, rows) <= mostForCopies(plan, rows);
  useAction("edit.duplicate", () => void copyNext(), {
    unable: unable ?? (isRoom ? null : "The copies would lie beyond the last date that a plan can hold."),
  });
  const dialog = deleting !== null && (
    <DeleteDialog
      key="delete"
      roots={deleting.map(({ kind, row }) => ({ kind, id: row.id }))}
      name={manyWords(deleting)}
      label={`Delete ${manyWords(deleting)}`}
      onClose={() => setDeleting(null)}
    />
  );
  if (rows.length === 0) return <article className="inspector">{dialog}</article>;
  const span = spanOf(rows);
  return (
    <article className="inspector">
      <header className="inspector-head">
        <p className="inspector-kind">
          selected together
          <Deselect />
        </p>
        <h2>{manyWords(rows)}</h2>
        <p>
          {formatDate(span.fromAt)} to {formatDate(span.untilAt)}
        </p>
        <ManyNames rows={rows} plan={plan} />
      </header>
      {fault !== null && (
        <p className="form-fault" role="alert">
          {fault}
        </p>
      )}
      {isTrial && <p className="form-advice">Keep the what-if as a case, or end it, to change the plan again.</p>}
      {isOpen && (
        <>
          <ShiftPart plan={plan} rows={rows} act={act} />
          <StatusPart plan={plan} rows={rows} act={act} />
          <CopyPart plan={plan} rows={rows} act={act} />
          <footer className="inspector-foot">
            <Button look="danger" onPress={() => setDeleting(rows)}>
              Delete all…
            </Button>
          </footer>
        </>
      )}
      {dialog}
    </article>
  );
};

const ManyNames = ({ rows, plan }: { rows: readonly ManyRow[]; plan: PlanSnapshot }) => {
  const session = useSession();
  return (
    <p className="many-names">
      {rows.slice(0, MAX_NAMED).map(({ kind, row }) => (
        <Button key={row.id} look="link" onPress={() => session.select({ kind, id: row.id })}>
          {nameOf(plan, kind, row)}
        </Button>
      ))}
      {rows.length > MAX_NAMED && <span>and {rows.length - MAX_NAMED} more</span>}
    </p>
  );
};

/** "2 of them have happened or were called off, and stay where they are." */
const StayNote = ({ count, words }: { count: number; words: string }) =>
  count > 0 && (
    <p className="form-advice">
      {count} of them {count === 1 ? "has" : "have"} happened or {count === 1 ? "was" : "were"} called off, and {words}.
    </p>
  );

const ShiftPart = ({ plan, rows, act }: PartProps) => {
  const [days, setDays] = useState<number | null>(null);
  const { least, most } = roomToShift(plan, rows);
  const movable = rows.filter(isMovable);
  const isInRange = days !== null && days !== 0 && days >= least && days <= most;
  const shift = async (): Promise<void> => {
    if (days !== null && (await act(shiftMany(rows, days)))) setDays(null);
  };
  return (
    <FormSection title="Move together">
      {movable.length > 0 && (
        <NumberField
          label="Later by"
          value={days}
          min={least}
          max={most}
          unit="days"
          isWhole
          step={1}
          onType={setDays}
          onCommit={setDays}
          onClear={() => setDays(null)}
          origin="negative: earlier"
        />
      )}
      <StayNote count={rows.length - movable.length} words="stay where they are" />
      <Button unable={isInRange ? null : "Type by how many days; 0 moves nothing."} onPress={() => void shift()}>
        Move
      </Button>
    </FormSection>
  );
};

const StatusPart = ({ rows, act }: PartProps) => {
  const open = rows.filter(isStatusOpen);
  const present = new Set(open.map(({ row }) => row.status));
  const [only] = present;
  return (
    <FormSection title="Status of all">
      {open.length > 0 && (
        <ChoiceField<HandStatus>
          label="Status"
          value={present.size === 1 ? (only as HandStatus) : null}
          emptyWords="several"
          choices={statusesFor(open).map((status) => ({ id: status, name: status }))}
          onCommit={(status) => void act(setStatusOfMany(rows, status))}
        />
      )}
      <StayNote count={rows.length - open.length} words="keep the status of their records" />
    </FormSection>
  );
};

const CopyPart = ({ plan, rows, act }: PartProps) => {
  const session = useSession();
  const clear = clearOfOriginals(plan, rows);
  const most = mostForCopies(plan, rows);
  const [asked, setAsked] = useState<number | null>(null);
  const days = asked ?? clear;
  const copy = async (): Promise<void> => {
    const { copies, ...step } = copyMany(plan, rows, days);
    if (await act(step)) session.selectMany(copies);
  };
  if (clear > most)
    return (
      <FormSection title="Copy along">
        <p className="form-advice">
          Copies after the last of them would lie beyond the end of the plan ({formatDate(plan.horizonAt)}). Set it
          later in Plan cases.
        </p>
      </FormSection>
    );
  return (
    <FormSection title="Copy along">
      <NumberField
        label="Copies later by"
        value={days}
        min={clear}
        max={most}
        unit="days"
        isWhole
        step={1}
        onCommit={setAsked}
        origin="the least that keeps them off the originals"
      />
      <Button onPress={() => void copy()}>Copy</Button>
    </FormSection>
  );
};
