/** A lander was loaded and left; a lander came home. */
import { type ReactNode, useState } from "react";
import type { RecordName } from "../../app/contract/contract.ts";
import type { Sortie } from "../../app/ledger/entity/sortie.ts";
import type { DialogProps } from "../dialogs.ts";
import { formatDate } from "../format/instant.ts";
import type { CaseForecast } from "../state/case-forecast.ts";
import { useApp } from "../state/use-session.ts";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { Dialog } from "../widgets/dialog.tsx";
import { InstantField } from "../widgets/instant-field.tsx";
import { NoteField } from "../widgets/note-field.tsx";
import { sortiesFor, subjectAmong } from "./choose-subject.ts";
import { PropellantLines, TankLines, moved } from "./mass-lines.tsx";
import { loadingPrefill, returnPrefill } from "./prefill.ts";
import { RecordDialog } from "./record-dialog.tsx";

interface SortieRecordProps {
  readonly sortie: Sortie;
  readonly current: CaseForecast;
  readonly chooser: ReactNode;
  readonly close: () => void;
}

const forSortie = (record: RecordName, title: string, none: string, Form: (props: SortieRecordProps) => ReactNode) =>
  function SortieRecord({ request, close }: DialogProps) {
    const current = useApp((state) => state.current);
    const [id, setId] = useState(request.subject?.kind === "sortie" ? request.subject.id : null);
    if (current === null) return null;
    const sorties = sortiesFor(current.plan, record);
    const sortie = subjectAmong(sorties, id);
    if (sortie === undefined)
      return (
        <Dialog title={title} width="narrow" onClose={close}>
          <p className="form-advice">{none}</p>
        </Dialog>
      );
    const chooser = (
      <ChoiceField
        label="Sortie"
        value={sortie.id}
        choices={sorties.map((row) => ({ id: row.id, name: row.name, note: formatDate(row.loadAt) }))}
        onCommit={setId}
      />
    );
    return <Form key={sortie.id} sortie={sortie} current={current} chooser={chooser} close={close} />;
  };

const forecastOf = (current: CaseForecast, sortie: Sortie) =>
  current.forecast.sorties.find(({ sortieId }) => sortieId === sortie.id);

const Loading = ({ sortie, current, chooser, close }: SortieRecordProps) => {
  const { plan } = current;
  const [entered, setEntered] = useState(() => loadingPrefill(plan, sortie, forecastOf(current, sortie)));
  const [note, setNote] = useState("");
  const put = (patch: Partial<typeof entered>): void => setEntered((before) => ({ ...before, ...patch }));
  const input = {
    sortieId: sortie.id,
    at: entered.at,
    drawn: moved(entered.drawn),
    handoverLoss: moved(entered.handoverLoss),
    note,
  };
  return (
    <RecordDialog
      title={`${sortie.name} loaded and left`}
      confirm="Record loading"
      record="record.loading"
      input={input}
      plan={plan}
      fields={["at", "drawn", "handoverLoss"]}
      onClose={close}
    >
      {(faultOf) => (
        <>
          {chooser}
          <InstantField label="Left" value={entered.at} fault={faultOf("at")} onCommit={(at) => put({ at })} />
          <TankLines
            title="Drawn from the depot"
            plan={plan}
            lines={entered.drawn}
            onChange={(drawn) => put({ drawn })}
            fault={faultOf("drawn")}
          />
          <PropellantLines
            title="Of that, lost in chilldown and handover"
            plan={plan}
            lines={entered.handoverLoss}
            onChange={(handoverLoss) => put({ handoverLoss })}
            fault={faultOf("handoverLoss")}
          />
          <NoteField label="Note" value={note} onCommit={setNote} />
        </>
      )}
    </RecordDialog>
  );
};

const Return = ({ sortie, current, chooser, close }: SortieRecordProps) => {
  const { plan } = current;
  const [at, setAt] = useState(sortie.returnAt);
  const [aboard, setAboard] = useState(() => returnPrefill(plan, sortie, forecastOf(current, sortie)));
  const [note, setNote] = useState("");
  return (
    <RecordDialog
      title={`${sortie.name} came home`}
      confirm="Record return"
      record="record.return"
      input={{ sortieId: sortie.id, at, aboard: [...aboard], note }}
      plan={plan}
      fields={["at", "aboard"]}
      onClose={close}
    >
      {(faultOf) => (
        <>
          {chooser}
          <InstantField label="Returned" value={at} earliestAt={sortie.loadAt} fault={faultOf("at")} onCommit={setAt} />
          <PropellantLines
            title="Left aboard"
            plan={plan}
            lines={aboard}
            onChange={setAboard}
            fault={faultOf("aboard")}
          />
          <p className="form-advice">What it left with and did not bring home is booked as burned.</p>
          <NoteField label="Note" value={note} onCommit={setNote} />
        </>
      )}
    </RecordDialog>
  );
};

export const LoadingDialog = forSortie(
  "record.loading",
  "Sortie loaded",
  "No sortie of this plan case is waiting to load.",
  Loading,
);
export const ReturnDialog = forSortie("record.return", "Sortie returned", "No lander is out.", Return);
