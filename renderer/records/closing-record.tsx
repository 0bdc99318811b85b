/** Booking the boil-off of a depot up to an instant: by the loss model, or as measured. */
import { useState } from "react";
import type { DialogProps } from "../widgets/dialog-props.ts";
import { tankName } from "../names/entity-words.ts";
import { useApp } from "../state/use-session.ts";
import type { CaseForecast } from "../state/case-forecast.ts";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { Dialog } from "../widgets/dialog.tsx";
import { FormSection } from "../widgets/form-row.tsx";
import { InstantField } from "../widgets/instant-field.tsx";
import { NoteField } from "../widgets/note-field.tsx";
import { NumberField } from "../widgets/number-field.tsx";
import { lastSigma } from "./last-sigma.ts";
import { RecordDialog } from "./record-dialog.tsx";

export const ClosingDialog = ({ request, close }: DialogProps) => {
  const current = useApp((state) => state.current);
  if (current === null) return null;
  if (current.plan.depots.length === 0)
    return (
      <Dialog title="Book boil-off to date" width="narrow" onClose={close}>
        <p className="form-advice">There is no depot yet.</p>
      </Dialog>
    );
  return <ClosingForm request={request} close={close} current={current} />;
};

interface Measured {
  readonly massKg: number | null;
  readonly sigmaKg: number | null;
}

const ClosingForm = ({ request, close, current }: DialogProps & { readonly current: CaseForecast }) => {
  const { plan, view } = current;
  const [depotId, setDepotId] = useState(
    () => plan.depots.find(({ id }) => id === request.subject?.id)?.id ?? plan.depots[0]?.id ?? "",
  );
  const [at, setAt] = useState(request.at ?? plan.asOfAt);
  const [measured, setMeasured] = useState<Readonly<Record<string, Measured>>>({});
  const [note, setNote] = useState("");
  const tanks = plan.tanks.filter(({ ownerKind, ownerId }) => ownerKind === "depot" && ownerId === depotId);
  const rowOf = (tankId: string): Measured => measured[tankId] ?? { massKg: null, sigmaKg: null };
  const put = (tankId: string, patch: Partial<Measured>): void =>
    setMeasured((before) => ({ ...before, [tankId]: { ...rowOf(tankId), ...patch } }));
  const sigmaOf = (tankId: string): number | null => rowOf(tankId).sigmaKg ?? lastSigma(view.readings, tankId);
  const filled = tanks.filter(({ id }) => rowOf(id).massKg !== null);
  /** The fault of this tank's level; of all together, at the first. */
  const placed = (faultOf: (field: string) => string | null, tankId: string, index: number): string | null => {
    const place = filled.findIndex(({ id }) => id === tankId);
    if (place >= 0 && faultOf(`measured.${place}`) !== null) return faultOf(`measured.${place}`);
    const isOfOne = filled.some((_tank, other) => faultOf(`measured.${other}`) !== null);
    return index === 0 && !isOfOne ? faultOf("measured") : null;
  };
  const isComplete = filled.every(({ id }) => sigmaOf(id) !== null);
  const input = isComplete
    ? {
        depotId,
        at,
        measured: filled.map(({ id }) => ({ tankId: id, massKg: rowOf(id).massKg ?? 0, sigmaKg: sigmaOf(id) ?? 1 })),
        note,
      }
    : null;
  return (
    <RecordDialog
      title="Book boil-off to date"
      confirm="Book boil-off"
      record="record.closing"
      input={input}
      plan={plan}
      fields={["at", "measured"]}
      onClose={close}
    >
      {(faultOf) => (
        <>
          <ChoiceField
            label="Depot"
            value={depotId}
            choices={plan.depots.map(({ id, name }) => ({ id, name }))}
            onCommit={setDepotId}
          />
          <InstantField label="Up to" value={at} fault={faultOf("at")} onCommit={setAt} />
          {tanks.map(({ id }, index) => (
            <FormSection key={id} title={tankName(plan, id)}>
              <NumberField
                label="Measured"
                unit="kg"
                min={0}
                max={1e9}
                value={rowOf(id).massKg}
                placeholder="by the loss model"
                fault={placed(faultOf, id, index)}
                onCommit={(massKg) => put(id, { massKg })}
                onClear={() => put(id, { massKg: null })}
              />
              {rowOf(id).massKg !== null && (
                <NumberField
                  label="Uncertainty, 1 σ"
                  unit="kg"
                  min={0}
                  isMinOpen
                  max={1e9}
                  value={sigmaOf(id)}
                  origin={rowOf(id).sigmaKg === null && sigmaOf(id) !== null ? "as of the tank’s last reading" : null}
                  onCommit={(sigmaKg) => put(id, { sigmaKg })}
                />
              )}
            </FormSection>
          ))}
          <NoteField label="Note" value={note} onCommit={setNote} />
        </>
      )}
    </RecordDialog>
  );
};
