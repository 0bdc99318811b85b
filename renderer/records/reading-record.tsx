/** A gauge reading: a level in kg or in per cent of the maximum fill, with its uncertainty. */
import { useState } from "react";
import type { DialogProps } from "../widgets/dialog-props.ts";
import { levelNow } from "../state/tank-now.ts";
import { formatMass } from "../format/mass.ts";
import { tankName } from "../names/entity-words.ts";
import { useApp } from "../state/use-session.ts";
import { CheckField } from "../widgets/check-field.tsx";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { Dialog } from "../widgets/dialog.tsx";
import { InstantField } from "../widgets/instant-field.tsx";
import { NoteField } from "../widgets/note-field.tsx";
import { NumberField } from "../widgets/number-field.tsx";
import type { CaseForecast } from "../state/case-forecast.ts";
import { RecordDialog } from "./record-dialog.tsx";
import type { Reading } from "../../app/ledger/journal.ts";
import { TextField } from "../widgets/text-field.tsx";
import { lastSigma } from "./last-sigma.ts";

const units = [
  { id: "kg", name: "kg" },
  { id: "%", name: "% of maximum fill" },
] as const;

/** A gauge may read more than the maximum fill; a slip of the pen is likelier. */
const aboveTankWords = (massKg: number, mostKg: number): string =>
  `${formatMass(massKg)} is more than the maximum fill of ${formatMass(mostKg)}. Is it meant?`;

export const ReadingDialog = ({ request, close }: DialogProps) => {
  const current = useApp((state) => state.current);
  if (current === null) return null;
  if (current.plan.tanks.length === 0)
    return (
      <Dialog title="Gauge reading" width="narrow" onClose={close}>
        <p className="form-advice">There is no tank yet. Add one in Depots.</p>
      </Dialog>
    );
  return <ReadingForm request={request} close={close} current={current} />;
};

/** A reading that was wrong, put right: its level and uncertainty as they stand, the reason, and one step for both. */
export const CorrectReadingDialog = ({ reading, close }: { readonly reading: Reading; readonly close: () => void }) => {
  const current = useApp((state) => state.current);
  if (current === null) return null;
  const request = {
    action: "record.reading",
    subject: { kind: "tank", id: reading.tankId },
    at: reading.at,
  } as const;
  return <ReadingForm request={request} close={close} current={current} wrong={reading} />;
};

interface ReadingFormProps extends DialogProps {
  readonly current: CaseForecast;
  /** The reading that this one takes the place of. */
  readonly wrong?: Reading;
}

const ReadingForm = ({ request, close, current, wrong }: ReadingFormProps) => {
  const { plan, view } = current;
  const [reason, setReason] = useState("");
  const [readingId] = useState(() => `reading-${crypto.randomUUID()}`);
  // A depot's tanks first: they are gauged every week, a lander's seldom.
  const tanks = plan.tanks.toSorted((a, b) => b.ownerKind.localeCompare(a.ownerKind));
  const [tankId, setTankId] = useState(
    () => tanks.find(({ id }) => id === request.subject?.id)?.id ?? tanks[0]?.id ?? "",
  );
  const [at, setAt] = useState(request.at ?? plan.asOfAt);
  const [unit, setUnit] = useState<"kg" | "%">("kg");
  const [mass, setMass] = useState<number | null>(wrong?.massKg ?? null);
  const [sigma, setSigma] = useState<number | null>(wrong?.sigmaKg ?? null);
  const [isTaken, setTaken] = useState(wrong === undefined || wrong.entryId !== null);
  const [note, setNote] = useState(wrong?.note ?? "");
  const most = plan.tanks.find(({ id }) => id === tankId)?.maximumFillKg ?? 0;
  const kgPerUnit = unit === "kg" ? 1 : most / 100;
  const known = lastSigma(view.readings, tankId);
  const sigmaKg = sigma ?? known;
  const gram = (kg: number): number => Math.round(kg * 1000) / 1000;
  const input =
    mass === null || sigmaKg === null || sigmaKg <= 0
      ? null
      : { id: readingId, tankId, at, massKg: gram(mass), sigmaKg, takeIntoBooks: isTaken, note };
  const inUnit = (kg: number | null): number | null =>
    kg === null || kgPerUnit === 0 ? null : Number((kg / kgPerUnit).toPrecision(9));
  return (
    <RecordDialog
      title={wrong === undefined ? "Gauge reading" : "Correct gauge reading"}
      confirm={wrong === undefined ? "Record reading" : "Correct reading"}
      record="record.reading"
      {...(wrong === undefined ? {} : { wrong: { what: { kind: "reading", id: wrong.id }, reason } })}
      input={input}
      plan={plan}
      fields={["at", "massKg", "sigmaKg"]}
      onClose={close}
    >
      {(faultOf) => (
        <>
          <ChoiceField
            label="Tank"
            value={tankId}
            choices={tanks.map(({ id }) => ({ id, name: tankName(plan, id) }))}
            onCommit={setTankId}
          />
          <InstantField label="Read" value={at} fault={faultOf("at")} onCommit={setAt} />
          <ChoiceField label="In" value={unit} choices={most > 0 ? units : units.slice(0, 1)} onCommit={setUnit} />
          <NumberField
            label="Level"
            unit={unit}
            min={0}
            max={unit === "kg" ? 1e9 : 200}
            value={inUnit(mass)}
            autoFocus
            fault={faultOf("massKg")}
            caution={mass !== null && most > 0 && mass > most ? aboveTankWords(mass, most) : null}
            origin={`by the books ${formatMass(levelNow(plan, tankId))} as of the plan’s date`}
            onCommit={(value) => setMass(value * kgPerUnit)}
          />
          <NumberField
            label="Uncertainty, 1 σ"
            unit={unit}
            min={0}
            isMinOpen
            max={unit === "kg" ? 1e9 : 100}
            value={inUnit(sigmaKg)}
            fault={faultOf("sigmaKg")}
            origin={sigma === null && known !== null ? "as of the tank’s last reading" : null}
            onCommit={(value) => setSigma(value * kgPerUnit)}
          />
          <CheckField isOn={isTaken} onCommit={setTaken}>
            Set the book level to this reading
          </CheckField>
          <NoteField label="Note" value={note} onCommit={setNote} />
          {wrong !== undefined && <TextField label="Why" value={reason} most={200} isRequired onCommit={setReason} />}
        </>
      )}
    </RecordDialog>
  );
};
