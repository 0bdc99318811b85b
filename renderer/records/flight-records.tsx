/** A flight departed, arrived, or was lost. */
import { useState } from "react";
import type { Flight } from "../../app/entity/flight.ts";
import type { SubjectRecord } from "../../app/records/recorded-as.ts";
import type { CaseForecast } from "../state/case-forecast.ts";
import { InstantField } from "../widgets/instant-field.tsx";
import { NoteField } from "../widgets/note-field.tsx";
import { flightsFor } from "./choose-subject.ts";
import { useEarlierArrivals } from "./earlier-arrivals.tsx";
import { EarlierRecord } from "./earlier-record.tsx";
import { type Correcting, useCorrecting } from "./correcting.tsx";
import { arrivalInput, departureInput } from "./flight-inputs.ts";
import { PropellantLines, TankLines } from "./mass-lines.tsx";
import { arrivalPrefill, departurePrefill } from "./prefill.ts";
import { recordedArrival, recordedDeparture, stretched } from "./recorded-prefill.ts";
import { RecordDialog } from "./record-dialog.tsx";
import { type SubjectRecordProps, subjectRecord } from "./subject-record.tsx";

interface FlightRecordProps<N extends SubjectRecord> extends SubjectRecordProps<Flight> {
  /** The record that is put right here; absent: a new one. */
  readonly correcting?: Correcting<N>;
}

const flightRecord = subjectRecord<Flight>({
  kind: "flight",
  label: "Flight",
  rowsFor: flightsFor,
  dueAt: ({ departAt }) => departAt,
});

const forecastOf = (current: CaseForecast, flight: Flight) =>
  current.forecast.flights.find(({ flightId }) => flightId === flight.id);

export const DepartureForm = (props: FlightRecordProps<"record.departure">) => {
  const { row: flight, current, chooser, close, correcting } = props;
  const recorded = correcting?.input;
  const [note, setNote] = useState(recorded?.note ?? "");
  const [entered, setEntered] = useState(() =>
    recorded === undefined
      ? departurePrefill(current.plan, flight, forecastOf(current, flight))
      : recordedDeparture(current.plan, flight, recorded),
  );
  const put = (patch: Partial<typeof entered>): void => setEntered((before) => ({ ...before, ...patch }));
  const origin = flight.origin.kind === "depot" ? flight.origin.depotId : null;
  const earlier = useEarlierArrivals(current, origin, entered.at, flight.id);
  const input = { ...departureInput(flight, entered, note), ...earlier.input };
  const { title, confirm, wrong, why } = useCorrecting(correcting, flight.name, {
    title: `${flight.name} departed`,
    confirm: "Record departure",
  });
  return (
    <RecordDialog
      title={title}
      confirm={confirm}
      record="record.departure"
      {...wrong}
      input={input}
      plan={current.plan}
      fields={["at", "loads", "drawn"]}
      onClose={close}
    >
      {(faultOf) => (
        <>
          {chooser}
          {earlier.offer}
          <InstantField label="Departed" value={entered.at} fault={faultOf("at")} onCommit={(at) => put({ at })} />
          <PropellantLines
            title="Loaded"
            plan={current.plan}
            lines={entered.loads}
            onChange={(loads) => put({ loads })}
            fault={faultOf("loads")}
          />
          {flight.origin.kind === "depot" && (
            <TankLines
              title="Drawn from the depot for it, with chilldown and handover loss"
              plan={current.plan}
              lines={entered.drawn}
              onChange={(drawn) => put({ drawn })}
              fault={faultOf("drawn")}
            />
          )}
          <NoteField label="Note" value={note} onCommit={setNote} />
          {why}
        </>
      )}
    </RecordDialog>
  );
};

export const ArrivalForm = (props: FlightRecordProps<"record.arrival">) => {
  const { row: flight, current, chooser, close, correcting } = props;
  const { plan } = current;
  const recorded = correcting?.input;
  const [entered, setEntered] = useState(() =>
    recorded === undefined
      ? arrivalPrefill(plan, flight, forecastOf(current, flight))
      : recordedArrival(plan, flight, recorded),
  );
  const [note, setNote] = useState(recorded?.note ?? "");
  const put = (patch: Partial<typeof entered>): void => setEntered((before) => ({ ...before, ...patch }));
  // Of a new record the forecast's course is kept; one that was recorded is moved with its beginning and end.
  const putSpan = (span: { readonly sinceAt?: number; readonly at?: number }): void =>
    recorded === undefined ? put(span) : setEntered((before) => stretched(before, span));
  const hasLeft = flight.status === "departed" || recorded !== undefined;
  const [left, setLeft] = useState(() => departurePrefill(plan, flight, forecastOf(current, flight)));
  const [isWithDeparture, setWithDeparture] = useState(false);
  const departAt = hasLeft ? flight.departAt : left.at;
  const input = {
    ...arrivalInput(flight, entered, note),
    ...(hasLeft || !isWithDeparture ? {} : { departure: departureInput(flight, left, "") }),
  };
  const { title, confirm, wrong, why } = useCorrecting(correcting, flight.name, {
    title: `${flight.name} arrived`,
    confirm: "Record arrival",
  });
  return (
    <RecordDialog
      title={title}
      confirm={confirm}
      record="record.arrival"
      {...wrong}
      input={input}
      plan={plan}
      fields={["at", "sinceAt", "taken", "handoverLoss", "leftAboard", "vented"]}
      onClose={close}
    >
      {(faultOf) => (
        <>
          {chooser}
          {!hasLeft && (
            <EarlierRecord
              words={`${flight.name} has no record of its departure.`}
              offer="Record its departure in the same step"
              isOn={isWithDeparture}
              onCommit={setWithDeparture}
            >
              <InstantField label="Departed" value={left.at} onCommit={(at) => setLeft({ ...left, at })} />
              <PropellantLines
                title="Loaded"
                plan={plan}
                lines={left.loads}
                onChange={(loads) => setLeft({ ...left, loads })}
                fault={faultOf("loads")}
              />
            </EarlierRecord>
          )}
          {entered.sinceAt !== null && (
            <InstantField
              label="Arrived"
              value={entered.sinceAt}
              earliestAt={departAt}
              fault={faultOf("sinceAt")}
              onCommit={(sinceAt) => putSpan({ sinceAt })}
            />
          )}
          <InstantField
            label={entered.sinceAt === null ? "Arrived" : "Handover ended"}
            value={entered.at}
            earliestAt={entered.sinceAt ?? departAt}
            fault={faultOf("at")}
            onCommit={(at) => putSpan({ at })}
          />
          <TankLines
            title="Received"
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
            The amounts begin as {recorded === undefined ? "the forecast has them" : "they were recorded"}. What is left
            of the load is booked as lost in flight.
            {entered.sinceAt !== null && " A metered handover is recorded by its end and flows at its rate until then."}
          </p>
          <NoteField label="Note" value={note} onCommit={setNote} />
          {why}
        </>
      )}
    </RecordDialog>
  );
};

export const LossForm = (props: FlightRecordProps<"record.loss">) => {
  const { row: flight, current, chooser, close, correcting } = props;
  const recorded = correcting?.input;
  const [at, setAt] = useState(recorded?.at ?? Math.max(flight.departAt, current.plan.asOfAt));
  const [note, setNote] = useState(recorded?.note ?? "");
  const { title, confirm, wrong, why } = useCorrecting(correcting, flight.name, {
    title: `${flight.name} was lost`,
    confirm: "Record its loss",
  });
  return (
    <RecordDialog
      title={title}
      confirm={confirm}
      record="record.loss"
      {...wrong}
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
          {why}
        </>
      )}
    </RecordDialog>
  );
};

export const DepartureDialog = flightRecord({
  record: "record.departure",
  title: "Flight departed",
  none: "No flight of this plan case is waiting to depart.",
  Form: DepartureForm,
});
export const ArrivalDialog = flightRecord({
  record: "record.arrival",
  title: "Flight arrived",
  none: "No flight of this plan case is planned or under way.",
  Form: ArrivalForm,
});
export const LossDialog = flightRecord({
  record: "record.loss",
  title: "Flight lost",
  none: "No flight is planned or under way.",
  Form: LossForm,
});
