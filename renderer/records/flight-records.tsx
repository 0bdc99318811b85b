/** A flight departed, arrived, or was lost. */
import { useState } from "react";
import type { Flight } from "../../app/ledger/entity/flight.ts";
import { InstantField } from "../widgets/instant-field.tsx";
import { NoteField } from "../widgets/note-field.tsx";
import { flightsFor } from "./choose-subject.ts";
import { PropellantLines, TankLines, moved } from "./mass-lines.tsx";
import { arrivalPrefill } from "./prefill.ts";
import { RecordDialog } from "./record-dialog.tsx";
import { type SubjectRecordProps, subjectRecord } from "./subject-record.tsx";

type FlightRecordProps = SubjectRecordProps<Flight>;

const flightRecord = subjectRecord<Flight>({
  kind: "flight",
  label: "Flight",
  rowsFor: flightsFor,
  dueAt: ({ departAt }) => departAt,
});

const Departure = ({ row: flight, current, chooser, close }: FlightRecordProps) => {
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

const Arrival = ({ row: flight, current, chooser, close }: FlightRecordProps) => {
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

const Loss = ({ row: flight, current, chooser, close }: FlightRecordProps) => {
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

export const DepartureDialog = flightRecord({
  record: "record.departure",
  title: "Flight departed",
  none: "No flight of this plan case is waiting to depart.",
  Form: Departure,
});
export const ArrivalDialog = flightRecord({
  record: "record.arrival",
  title: "Flight arrived",
  none: "No flight is under way. Record its departure first.",
  Form: Arrival,
});
export const LossDialog = flightRecord({
  record: "record.loss",
  title: "Flight lost",
  none: "No flight is planned or under way.",
  Form: Loss,
});
