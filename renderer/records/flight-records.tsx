/** A flight departed, arrived, or was lost. */
import { type ReactNode, useState } from "react";
import type { RecordName } from "../../app/contract/contract.ts";
import type { Flight } from "../../app/ledger/entity/flight.ts";
import type { DialogProps } from "../dialogs.ts";
import { formatDate } from "../format/instant.ts";
import type { CaseForecast } from "../state/case-forecast.ts";
import { useApp } from "../state/use-session.ts";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { Dialog } from "../widgets/dialog.tsx";
import { InstantField } from "../widgets/instant-field.tsx";
import { NoteField } from "../widgets/note-field.tsx";
import { flightsFor, subjectAmong } from "./choose-subject.ts";
import { PropellantLines, TankLines, moved } from "./mass-lines.tsx";
import { arrivalPrefill } from "./prefill.ts";
import { RecordDialog } from "./record-dialog.tsx";

interface FlightRecordProps {
  readonly flight: Flight;
  readonly current: CaseForecast;
  /** The field that chooses the flight, first in the form. */
  readonly chooser: ReactNode;
  readonly close: () => void;
}

/** Chooses the flight, then shows the form for it. */
const forFlight = (record: RecordName, title: string, none: string, Form: (props: FlightRecordProps) => ReactNode) =>
  function FlightRecord({ request, close }: DialogProps) {
    const current = useApp((state) => state.current);
    const [id, setId] = useState(request.subject?.kind === "flight" ? request.subject.id : null);
    if (current === null) return null;
    const flights = flightsFor(current.plan, record);
    const flight = subjectAmong(flights, id);
    if (flight === undefined)
      return (
        <Dialog title={title} width="narrow" onClose={close}>
          <p className="form-advice">{none}</p>
        </Dialog>
      );
    const chooser = (
      <ChoiceField
        label="Flight"
        value={flight.id}
        choices={flights.map((row) => ({ id: row.id, name: row.name, note: formatDate(row.departAt) }))}
        onCommit={setId}
      />
    );
    return <Form key={flight.id} flight={flight} current={current} chooser={chooser} close={close} />;
  };

const Departure = ({ flight, current, chooser, close }: FlightRecordProps) => {
  const [at, setAt] = useState(flight.departAt);
  const [note, setNote] = useState("");
  const [loads, setLoads] = useState(() =>
    flight.loads.map(({ propellantId, loadedKg }) => ({ propellantId, massKg: loadedKg })),
  );
  const input = {
    flightId: flight.id,
    at,
    loads: moved(loads).map(({ propellantId, massKg }) => ({ propellantId, loadedKg: massKg })),
    note,
  };
  return (
    <RecordDialog
      title={`${flight.name} departed`}
      confirm="Record departure"
      record="record.departure"
      input={input}
      plan={current.plan}
      fields={["at", "loads"]}
      onClose={close}
    >
      {(faultOf) => (
        <>
          {chooser}
          <InstantField label="Departed" value={at} fault={faultOf("at")} onCommit={setAt} />
          <PropellantLines
            title="Really loaded"
            plan={current.plan}
            lines={loads}
            onChange={(lines) => setLoads([...lines])}
            fault={faultOf("loads")}
          />
          <NoteField label="Note" value={note} onCommit={setNote} />
        </>
      )}
    </RecordDialog>
  );
};

const Arrival = ({ flight, current, chooser, close }: FlightRecordProps) => {
  const { plan } = current;
  const [entered, setEntered] = useState(() =>
    arrivalPrefill(
      plan,
      flight,
      current.forecast.flights.find(({ flightId }) => flightId === flight.id),
    ),
  );
  const [note, setNote] = useState("");
  const put = (patch: Partial<typeof entered>): void => setEntered((before) => ({ ...before, ...patch }));
  const input = {
    flightId: flight.id,
    at: entered.at,
    taken: moved(entered.taken),
    handoverLoss: moved(entered.handoverLoss),
    leftAboard: moved(entered.leftAboard),
    vented: moved(entered.vented),
    note,
  };
  return (
    <RecordDialog
      title={`${flight.name} arrived`}
      confirm="Record arrival"
      record="record.arrival"
      input={input}
      plan={plan}
      fields={["at", "taken", "handoverLoss", "leftAboard", "vented"]}
      onClose={close}
    >
      {(faultOf) => (
        <>
          {chooser}
          <InstantField
            label="Arrived"
            value={entered.at}
            earliestAt={flight.departAt}
            fault={faultOf("at")}
            onCommit={(at) => put({ at })}
          />
          <TankLines
            title="Really taken"
            plan={plan}
            lines={entered.taken}
            onChange={(taken) => put({ taken })}
            fault={faultOf("taken")}
          />
          <PropellantLines
            title="Lost in the handover"
            plan={plan}
            lines={entered.handoverLoss}
            onChange={(handoverLoss) => put({ handoverLoss })}
            fault={faultOf("handoverLoss")}
          />
          <PropellantLines
            title="Left aboard"
            plan={plan}
            lines={entered.leftAboard}
            onChange={(leftAboard) => put({ leftAboard })}
            fault={faultOf("leftAboard")}
          />
          <PropellantLines
            title="Vented"
            plan={plan}
            lines={entered.vented}
            onChange={(vented) => put({ vented })}
            fault={faultOf("vented")}
          />
          <p className="form-advice">
            The amounts begin as the forecast has them. What is left of the load is booked as lost in flight.
          </p>
          <NoteField label="Note" value={note} onCommit={setNote} />
        </>
      )}
    </RecordDialog>
  );
};

const Loss = ({ flight, current, chooser, close }: FlightRecordProps) => {
  const [at, setAt] = useState(Math.max(flight.departAt, current.plan.asOfAt));
  const [note, setNote] = useState("");
  return (
    <RecordDialog
      title={`${flight.name} was lost`}
      confirm="Record its loss"
      record="record.loss"
      input={{ flightId: flight.id, at, note }}
      plan={current.plan}
      fields={["at"]}
      isDanger
      onClose={close}
    >
      {(faultOf) => (
        <>
          {chooser}
          <InstantField label="Lost" value={at} fault={faultOf("at")} onCommit={setAt} />
          <NoteField label="Note" value={note} onCommit={setNote} />
        </>
      )}
    </RecordDialog>
  );
};

export const DepartureDialog = forFlight(
  "record.departure",
  "Flight departed",
  "No flight of this plan case is waiting to depart.",
  Departure,
);
export const ArrivalDialog = forFlight(
  "record.arrival",
  "Flight arrived",
  "No flight is under way. Record its departure first.",
  Arrival,
);
export const LossDialog = forFlight("record.loss", "Flight lost", "No flight is planned or under way.", Loss);
