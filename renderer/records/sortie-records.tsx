/** A lander was loaded and left; a lander came home. */
import { useState } from "react";
import type { Sortie } from "../../app/entity/sortie.ts";
import type { SubjectRecord } from "../../app/records/recorded-as.ts";
import type { CaseForecast } from "../state/case-forecast.ts";
import { InstantField } from "../widgets/instant-field.tsx";
import { NoteField } from "../widgets/note-field.tsx";
import { sortiesFor } from "./choose-subject.ts";
import { type Correcting, useCorrecting } from "./correcting.tsx";
import { useEarlierArrivals } from "./earlier-arrivals.tsx";
import { EarlierRecord } from "./earlier-record.tsx";
import { PropellantLines, TankLines, moved } from "./mass-lines.tsx";
import { type LoadingPrefill, loadingPrefill, returnPrefill } from "./prefill.ts";
import { recordedLoading, recordedReturn } from "./recorded-prefill.ts";
import { RecordDialog } from "./record-dialog.tsx";
import { type SubjectRecordProps, subjectRecord } from "./subject-record.tsx";

interface SortieRecordProps<N extends SubjectRecord> extends SubjectRecordProps<Sortie> {
  /** The record that is put right here; absent: a new one. */
  readonly correcting?: Correcting<N>;
}

const sortieRecord = subjectRecord<Sortie>({
  kind: "sortie",
  label: "Sortie",
  rowsFor: sortiesFor,
  dueAt: ({ loadAt }) => loadAt,
});

const forecastOf = (current: CaseForecast, sortie: Sortie) =>
  current.forecast.sorties.find(({ sortieId }) => sortieId === sortie.id);

const loadingInput = (sortie: Sortie, entered: LoadingPrefill, note: string) => ({
  sortieId: sortie.id,
  at: entered.at,
  drawn: moved(entered.drawn),
  handoverLoss: moved(entered.handoverLoss),
  note,
});

export const LoadingForm = (props: SortieRecordProps<"record.loading">) => {
  const { row: sortie, current, chooser, close, correcting } = props;
  const { plan } = current;
  const recorded = correcting?.input;
  const [entered, setEntered] = useState(() =>
    recorded === undefined
      ? loadingPrefill(plan, sortie, forecastOf(current, sortie))
      : recordedLoading(plan, sortie, recorded),
  );
  const [note, setNote] = useState(recorded?.note ?? "");
  const put = (patch: Partial<typeof entered>): void => setEntered((before) => ({ ...before, ...patch }));
  const earlier = useEarlierArrivals(current, sortie.depotId, entered.at, sortie.id);
  const input = { ...loadingInput(sortie, entered, note), ...earlier.input };
  const { title, confirm, wrong, why } = useCorrecting(correcting, sortie.name, {
    title: `${sortie.name} loaded and left`,
    confirm: "Record loading",
  });
  return (
    <RecordDialog
      title={title}
      confirm={confirm}
      record="record.loading"
      {...wrong}
      input={input}
      plan={plan}
      fields={["at", "drawn", "handoverLoss"]}
      onClose={close}
    >
      {(faultOf) => (
        <>
          {chooser}
          {earlier.offer}
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
          {why}
        </>
      )}
    </RecordDialog>
  );
};

export const ReturnForm = (props: SortieRecordProps<"record.return">) => {
  const { row: sortie, current, chooser, close, correcting } = props;
  const { plan } = current;
  const recorded = correcting?.input;
  const [at, setAt] = useState(recorded?.at ?? Math.round(forecastOf(current, sortie)?.returnAt ?? sortie.returnAt));
  const [aboard, setAboard] = useState(() =>
    recorded === undefined
      ? returnPrefill(plan, sortie, forecastOf(current, sortie))
      : recordedReturn(plan, sortie, recorded),
  );
  const [note, setNote] = useState(recorded?.note ?? "");
  const isOut = sortie.status === "departed" || recorded !== undefined;
  const [left, setLeft] = useState(() => loadingPrefill(plan, sortie, forecastOf(current, sortie)));
  const [isWithLoading, setWithLoading] = useState(false);
  const loading = isOut || !isWithLoading ? {} : { loading: loadingInput(sortie, left, "") };
  const { title, confirm, wrong, why } = useCorrecting(correcting, sortie.name, {
    title: `${sortie.name} came home`,
    confirm: "Record return",
  });
  return (
    <RecordDialog
      title={title}
      confirm={confirm}
      record="record.return"
      {...wrong}
      input={{ sortieId: sortie.id, at, aboard: [...aboard], note, ...loading }}
      plan={plan}
      fields={["at", "aboard"]}
      onClose={close}
    >
      {(faultOf) => (
        <>
          {chooser}
          {!isOut && (
            <EarlierRecord
              words={`${sortie.name} has no record of its loading.`}
              offer="Record its loading in the same step"
              isOn={isWithLoading}
              onCommit={setWithLoading}
            >
              <InstantField label="Left" value={left.at} onCommit={(leftAt) => setLeft({ ...left, at: leftAt })} />
              <TankLines
                title="Drawn from the depot"
                plan={plan}
                lines={left.drawn}
                onChange={(drawn) => setLeft({ ...left, drawn })}
                fault={faultOf("drawn")}
              />
            </EarlierRecord>
          )}
          <InstantField
            label="Returned"
            value={at}
            earliestAt={isOut ? sortie.loadAt : left.at}
            fault={faultOf("at")}
            onCommit={setAt}
          />
          <PropellantLines
            title="Left aboard"
            plan={plan}
            lines={aboard}
            onChange={setAboard}
            fault={faultOf("aboard")}
          />
          <p className="form-advice">
            What it left with and did not bring home is booked: boil-off aboard, crew and power as its profile says, the
            rest as burned.
          </p>
          <NoteField label="Note" value={note} onCommit={setNote} />
          {why}
        </>
      )}
    </RecordDialog>
  );
};

const StandDown = ({ row: sortie, current, chooser, close }: SubjectRecordProps<Sortie>) => {
  const [note, setNote] = useState("");
  // Known by the time it was to load, or now where that is still to come.
  const [at, setAt] = useState(Math.min(sortie.loadAt, current.plan.asOfAt));
  return (
    <RecordDialog
      title={`${sortie.name} stood down`}
      confirm="Record stand-down"
      record="record.standDown"
      input={{ sortieId: sortie.id, at, note }}
      plan={current.plan}
      fields={["at"]}
      onClose={close}
    >
      {(faultOf) => (
        <>
          {chooser}
          <InstantField label="Known" value={at} fault={faultOf("at")} onCommit={setAt} />
          <p className="form-advice">
            It drew nothing and will not fly. No mass moves; the sortie stays in the plan as stood down.
          </p>
          <NoteField label="Reason" value={note} onCommit={setNote} />
        </>
      )}
    </RecordDialog>
  );
};

export const StandDownDialog = sortieRecord({
  record: "record.standDown",
  title: "Sortie stood down",
  none: "No sortie of this plan case is waiting to load.",
  Form: StandDown,
});
export const LoadingDialog = sortieRecord({
  record: "record.loading",
  title: "Sortie loaded",
  none: "No sortie of this plan case is waiting to load.",
  Form: LoadingForm,
});
export const ReturnDialog = sortieRecord({
  record: "record.return",
  title: "Sortie returned",
  none: "No sortie of this plan case is planned or out.",
  Form: ReturnForm,
});
