/**
 * Closing a month of a depot on one sheet: records that are missing, every tank's level with the books beside it, what the
 * gauge does not explain; boil-off is booked by the loss model or as measured, then the statement is shown or a report issued.
 */
import { useState } from "react";
import type { DialogProps } from "../widgets/dialog-props.ts";
import { tankName } from "../names/entity-words.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import type { CaseForecast } from "../state/case-forecast.ts";
import { CheckField } from "../widgets/check-field.tsx";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { Dialog } from "../widgets/dialog.tsx";
import { FormSection } from "../widgets/form-row.tsx";
import { InstantField } from "../widgets/instant-field.tsx";
import { NoteField } from "../widgets/note-field.tsx";
import { NumberField } from "../widgets/number-field.tsx";
import { lastSigma } from "./last-sigma.ts";
import {
  type MissingRecord,
  UNEXPLAINED_SIGMAS,
  bookLevel,
  bookWords,
  differenceWords,
  missingRecords,
  unexplainedWords,
} from "./month-end.ts";
import { MonthRates } from "./month-rates.tsx";
import { RecordDialog } from "./record-dialog.tsx";

export const ClosingDialog = ({ request, close }: DialogProps) => {
  const current = useApp((state) => state.current);
  if (current === null) return null;
  if (current.plan.depots.length === 0)
    return (
      <Dialog title="Close the month" width="narrow" onClose={close}>
        <p className="form-advice">There is no depot yet.</p>
      </Dialog>
    );
  return <ClosingForm request={request} close={close} current={current} />;
};

interface Measured {
  readonly massKg: number | null;
  readonly sigmaKg: number | null;
}

type After = "statement" | "issue" | "nothing";
const afterChoices = [
  { id: "statement", name: "show the loss statement" },
  { id: "issue", name: "show it and issue the report" },
  { id: "nothing", name: "stay here" },
] as const;

/** What closing the rates leads to. */
const thenWords: Readonly<Record<After, string>> = {
  statement: "When you close this, the loss statement is shown.",
  issue: "When you close this, the loss statement is shown and the report can be issued.",
  nothing: "",
};

const besideWords = (
  current: CaseForecast,
  tankId: string,
  at: number,
  massKg: number | null,
  sigmaKg: number | null,
): string => {
  const book = bookWords(current, tankId, at);
  return massKg === null ? book : `${book}; ${differenceWords(massKg, bookLevel(current, tankId, at), sigmaKg)}`;
};

const cautionWords = (
  current: CaseForecast,
  tankId: string,
  at: number,
  massKg: number | null,
  sigmaKg: number | null,
): string | null => {
  if (massKg === null) return null;
  const words = unexplainedWords(massKg, bookLevel(current, tankId, at), sigmaKg);
  return words === null ? null : `${bookWords(current, tankId, at)}; ${words}`;
};

/** Events that were to come by then and have no record: recorded first, for a closing after them takes them as they are. */
const MissingList = ({ missing, close }: { missing: readonly MissingRecord[]; close: () => void }) => {
  const session = useSession();
  if (missing.length === 0) return <p className="form-advice">No record is missing up to then.</p>;
  return (
    <FormSection title="Records that are missing">
      <ul className="missing-records">
        {missing.map(({ subject, action, sentence }) => (
          <li key={`${subject.kind} ${subject.id}`}>
            {sentence}: no record says so.{" "}
            <Button
              look="link"
              aria-label={`Record: ${sentence}`}
              onPress={() => {
                close();
                session.openDialog(action, { subject });
              }}
            >
              Record…
            </Button>
          </li>
        ))}
      </ul>
    </FormSection>
  );
};

const ClosingForm = ({ request, close, current }: DialogProps & { readonly current: CaseForecast }) => {
  const { plan, view } = current;
  const [depotId, setDepotId] = useState(
    () => plan.depots.find(({ id }) => id === request.subject?.id)?.id ?? plan.depots[0]?.id ?? "",
  );
  const [at, setAt] = useState(request.at ?? plan.asOfAt);
  const [measured, setMeasured] = useState<Readonly<Record<string, Measured>>>({});
  const [note, setNote] = useState("");
  const [typed, setTyped] = useState<Readonly<Record<string, number | null>>>({});
  const [after, setAfter] = useState<After>("statement");
  const [isWithRates, setWithRates] = useState(false);
  const [isBooked, setBooked] = useState(false);
  const session = useSession();
  const tanks = plan.tanks.filter(({ ownerKind, ownerId }) => ownerKind === "depot" && ownerId === depotId);
  const rowOf = (tankId: string): Measured => measured[tankId] ?? { massKg: null, sigmaKg: null };
  const put = (tankId: string, patch: Partial<Measured>): void =>
    setMeasured((before) => ({ ...before, [tankId]: { ...rowOf(tankId), ...patch } }));
  const sigmaOf = (tankId: string): number | null => rowOf(tankId).sigmaKg ?? lastSigma(view.readings, tankId);
  const filled = tanks.filter(({ id }) => rowOf(id).massKg !== null);
  /** The fault of this tank's level; of all together, at the first. */
  const placed = (faultOf: (field: string) => string | null, tankId: string, index: number): string | null => {
    const filledIndex = filled.findIndex(({ id }) => id === tankId);
    if (filledIndex >= 0 && faultOf(`measured.${filledIndex}`) !== null) return faultOf(`measured.${filledIndex}`);
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
  const levelOf = (tankId: string): number | null => typed[tankId] ?? rowOf(tankId).massKg;
  const unexplained = tanks.flatMap(({ id }) => {
    const massKg = levelOf(id);
    const words = massKg === null ? null : unexplainedWords(massKg, bookLevel(current, id, at), sigmaOf(id));
    return words === null ? [] : [tankName(plan, id)];
  });
  const goOn = (): void => {
    close();
    if (after === "nothing") return;
    session.show("losses");
    if (after === "issue") session.openDialog("report.issue");
  };
  if (isBooked) return <MonthRates depotId={depotId} at={at} then={thenWords[after]} onClose={goOn} />;
  return (
    <RecordDialog
      title="Close the month"
      confirm="Book boil-off"
      record="record.closing"
      input={input}
      plan={plan}
      fields={["at", "measured"]}
      onClose={close}
      onWritten={isWithRates ? () => setBooked(true) : goOn}
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
          <MissingList missing={missingRecords(current, depotId, at)} close={close} />
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
                origin={besideWords(current, id, at, levelOf(id), sigmaOf(id))}
                caution={cautionWords(current, id, at, levelOf(id), sigmaOf(id))}
                onType={(massKg) => setTyped((before) => ({ ...before, [id]: massKg }))}
                onCommit={(massKg) => {
                  setTyped((before) => ({ ...before, [id]: null }));
                  put(id, { massKg });
                }}
                onClear={() => {
                  setTyped((before) => ({ ...before, [id]: null }));
                  put(id, { massKg: null });
                }}
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
          {unexplained.length > 0 && (
            <p className="form-advice">
              Beyond {UNEXPLAINED_SIGMAS} σ: {unexplained.join(", ")}. Booked so, the difference stands as unaccounted.
            </p>
          )}
          <NoteField label="Note" value={note} onCommit={setNote} />
          <CheckField isOn={isWithRates} onCommit={setWithRates}>
            Once booked, first compare the measured loss rates with the plan’s and adopt them or not
          </CheckField>
          <ChoiceField label="Then" value={after} choices={afterChoices} onCommit={setAfter} />
        </>
      )}
    </RecordDialog>
  );
};
