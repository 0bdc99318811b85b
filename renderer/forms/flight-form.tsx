/** A flight: who flies it from where, when, and with what. */
import type { Flight } from "../../app/entity/flight.ts";
import { type Held, choicesInForm } from "../../app/fields/field.ts";
import { flightFields } from "../../app/fields/flight-fields.ts";
import { DAY_MS } from "../../app/ground/quantity.ts";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { FormSection } from "../widgets/form-row.tsx";
import { NumberField } from "../widgets/number-field.tsx";
import { EditChoice, EditInstant, EditText } from "../editing/bound-fields.tsx";
import { FieldRows, type FormOf } from "../editing/field-rows.tsx";
import type { Editing, FormProps } from "../editing/editing.ts";
import { FlightLoads } from "./flight-loads.tsx";

/** What is away is as its records say. */
const isHeld = ({ status }: Flight, held: Held): boolean =>
  status === "arrived" || status === "lost" || (held === "begun" && status === "departed");

const OriginRow = ({ edit }: FormProps<Flight>) => {
  const { value, plan } = edit;
  return (
    <ChoiceField
      label={flightFields.origin.label}
      value={value.origin.kind === "source" ? value.origin.sourceId : value.origin.depotId}
      choices={[
        ...plan.sources.map(({ id, name, kind }) => ({ id, name, note: kind })),
        ...plan.depots.filter(({ id }) => id !== value.depotId).map(({ id, name }) => ({ id, name, note: "depot" })),
      ]}
      isReadOnly={edit.isReadOnly}
      fault={edit.faultOf("origin")}
      onCommit={(id) =>
        edit.change(
          {
            origin: plan.sources.some((source) => source.id === id)
              ? { kind: "source", sourceId: id }
              : { kind: "depot", depotId: id },
          },
          flightFields.origin.words,
        )
      }
    />
  );
};

export const FlightForm = ({ edit }: FormProps<Flight>) => {
  const { value, plan } = edit;
  const classId = plan.craft.find(({ id }) => id === value.craftId)?.classId;
  const craftClass = plan.craftClasses.find(({ id }) => id === classId);
  const dates: Editing<Flight> = { ...edit, isReadOnly: edit.isReadOnly || isHeld(value, "begun") };
  const transitDays = (value.arriveAt - value.departAt) / DAY_MS;
  const form: FormOf<Flight, typeof flightFields> = {
    edit,
    table: flightFields,
    isHeld: (held) => isHeld(value, held),
    own: {
      name: <EditText edit={edit} field="name" label={flightFields.name.label} isRequired others={edit.plan.flights} />,
      origin: <OriginRow edit={dates} />,
      arriveAt: (
        <>
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
          <EditInstant
            edit={{ ...edit, isReadOnly: edit.isReadOnly || isHeld(value, "over") }}
            field="arriveAt"
            label={flightFields.arriveAt.label}
            words={flightFields.arriveAt.words}
            earliestAt={value.departAt}
          />
        </>
      ),
      loads: <FlightLoads edit={dates} craftClass={craftClass} />,
      // A record's status may be taken back by hand to none but a plan's: the record itself is reversed in the journal.
      status: (
        <EditChoice
          edit={edit}
          field="status"
          label={flightFields.status.label}
          choices={choicesInForm(flightFields.status.value.choices, value.status)}
        />
      ),
    },
    origins: {
      departAt: "the arrival moves along",
      berthDays: craftClass === undefined ? null : `${craftClass.name}: ${craftClass.berthDays} days`,
    },
  };
  return (
    <>
      <FieldRows form={form} section="who" />
      <FormSection title="When">
        <FieldRows form={form} section="when" />
      </FormSection>
      <FieldRows form={form} section="loads" />
      <FormSection title="Policy">
        <FieldRows form={form} section="policy" />
      </FormSection>
    </>
  );
};
