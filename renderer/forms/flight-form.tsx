/** A flight: who flies it from where, when, and with what. */
import type { Craft } from "../../app/entity/craft.ts";
import type { Flight } from "../../app/entity/flight.ts";
import { DAY_MS } from "../../app/ground/quantity.ts";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { FormSection } from "../widgets/form-row.tsx";
import { InstantField } from "../widgets/instant-field.tsx";
import { NumberField } from "../widgets/number-field.tsx";
import { EditChoice, EditNote, EditNumber, EditText, choicesOf } from "../editing/bound-fields.tsx";
import type { Editing, FormProps } from "../editing/editing.ts";
import { FlightLoads } from "./flight-loads.tsx";

const statusChoices = [
  { id: "planned", name: "planned" },
  { id: "firm", name: "firm", note: "the scheduler leaves it" },
  { id: "departed", name: "departed", note: "by the record" },
  { id: "arrived", name: "arrived", note: "by the record" },
  { id: "lost", name: "lost", note: "by the record" },
  { id: "cancelled", name: "cancelled" },
] as const;

/** Only what is not told by a record may be chosen. */
const choosable = (status: Flight["status"]) =>
  statusChoices.filter(({ id }) => id === status || id === "planned" || id === "firm" || id === "cancelled");

const ofRole = (edit: Editing<Flight>): readonly Craft[] =>
  edit.plan.craft.filter(({ classId }) => edit.plan.craftClasses.find(({ id }) => id === classId)?.role === "tanker");

export const FlightForm = ({ edit }: FormProps<Flight>) => {
  const { value, plan } = edit;
  const classId = plan.craft.find(({ id }) => id === value.craftId)?.classId;
  const craftClass = plan.craftClasses.find(({ id }) => id === classId);
  const isRecorded = value.status === "departed" || value.status === "arrived" || value.status === "lost";
  const dates: Editing<Flight> = { ...edit, isReadOnly: edit.isReadOnly || isRecorded };
  const originId = value.origin.kind === "source" ? value.origin.sourceId : value.origin.depotId;
  const transitDays = (value.arriveAt - value.departAt) / DAY_MS;
  return (
    <>
      <EditText edit={edit} field="name" label="Name" isRequired others={edit.plan.flights} />
      <EditChoice edit={dates} field="craftId" label="Tanker" choices={choicesOf(ofRole(edit))} />
      <ChoiceField
        label="From"
        value={originId}
        choices={[
          ...plan.sources.map(({ id, name, kind }) => ({ id, name, note: kind })),
          ...plan.depots.filter(({ id }) => id !== value.depotId).map(({ id, name }) => ({ id, name, note: "depot" })),
        ]}
        isReadOnly={dates.isReadOnly}
        fault={edit.faultOf("origin")}
        onCommit={(id) =>
          edit.change(
            {
              origin: plan.sources.some((source) => source.id === id)
                ? { kind: "source", sourceId: id }
                : { kind: "depot", depotId: id },
            },
            "origin",
          )
        }
      />
      <EditChoice edit={dates} field="depotId" label="To" choices={choicesOf(plan.depots)} />
      <FormSection title="When">
        <InstantField
          label="Departs"
          value={value.departAt}
          isReadOnly={dates.isReadOnly}
          origin="the arrival moves along"
          fault={edit.faultOf("departAt")}
          onCommit={(departAt) =>
            edit.change({ departAt, arriveAt: value.arriveAt + departAt - value.departAt }, "departure")
          }
        />
        <NumberField
          label="Transit"
          unit="days"
          min={0}
          max={2000}
          value={Number(transitDays.toFixed(4))}
          isReadOnly={dates.isReadOnly}
          origin={craftClass === undefined ? null : `${craftClass.name}: ${craftClass.tripDays} days`}
          onCommit={(days) => edit.change({ arriveAt: value.departAt + Math.round(days * DAY_MS) }, "transit")}
        />
        <InstantField
          label="Arrives"
          value={value.arriveAt}
          earliestAt={value.departAt}
          isReadOnly={edit.isReadOnly || value.status === "arrived" || value.status === "lost"}
          fault={edit.faultOf("arriveAt")}
          onCommit={(arriveAt) => edit.change({ arriveAt }, "arrival")}
        />
        <EditNumber
          edit={edit}
          field="berthDays"
          label="At the port"
          unit="days"
          min={0}
          max={2000}
          origin={craftClass === undefined ? null : `${craftClass.name}: ${craftClass.berthDays} days`}
        />
      </FormSection>
      <FlightLoads edit={dates} craftClass={craftClass} />
      <FormSection title="Policy">
        <EditChoice
          edit={edit}
          field="overflow"
          label="If it does not fit"
          choices={[
            { id: "keep aboard", name: "keep aboard" },
            { id: "vent", name: "vent" },
          ]}
        />
        <EditChoice edit={edit} field="status" label="Status" choices={choosable(value.status)} />
        <EditNote edit={edit} field="note" label="Note" />
      </FormSection>
    </>
  );
};
