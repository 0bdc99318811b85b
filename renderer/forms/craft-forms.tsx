/** Craft and their classes. */
import type { FormProps } from "../editing/editing.ts";
import type { Craft, CraftClass, CraftPropellant } from "../../app/entity/craft.ts";
import { FormSection } from "../widgets/form-row.tsx";
import { MenuButton } from "../widgets/menu-button.tsx";
import { EditChoice, EditNote, EditNumber, EditText, choicesOf } from "../editing/bound-fields.tsx";
import { EngineChanges } from "./engine-changes.tsx";
import { CraftPropellantFields } from "./craft-propellant-fields.tsx";

export const CraftForm = ({ edit }: FormProps<Craft>) => (
  <>
    <EditText edit={edit} field="name" label="Name" isRequired others={edit.plan.craft} />
    <EditChoice edit={edit} field="classId" label="Class" choices={choicesOf(edit.plan.craftClasses)} />
    {edit.plan.craftClasses.find(({ id }) => id === edit.value.classId)?.role === "lander" && (
      <EngineChanges edit={edit} />
    )}
    <EditNote edit={edit} field="note" label="Note" />
  </>
);

const carriesNothing = (propellantId: string): CraftPropellant => ({
  propellantId,
  capacityKg: 0,
  loadKg: 0,
  returnKg: 0,
  kPerDay: 0,
  cKgPerDay: 0,
  residualKg: 0,
  chilldownKg: 0,
  lossFraction: 0,
  rateKgPerDay: null,
});

export const CraftClassForm = ({ edit }: FormProps<CraftClass>) => {
  const { value, plan } = edit;
  const isTanker = value.role === "tanker";
  const free = plan.propellants.filter(({ id }) => value.propellants.every(({ propellantId }) => propellantId !== id));
  return (
    <>
      <EditText edit={edit} field="name" label="Name" isRequired others={edit.plan.craftClasses} />
      <EditChoice
        edit={edit}
        field="role"
        label="Role"
        choices={[
          { id: "tanker", name: "tanker", note: "brings propellant" },
          { id: "lander", name: "lander", note: "flies sorties" },
        ]}
      />
      <EditNumber
        edit={edit}
        field="tripDays"
        label={isTanker ? "Usual transit" : "Usual time away"}
        unit="days"
        min={0}
        max={2000}
      />
      {isTanker && (
        <>
          <EditNumber edit={edit} field="berthDays" label="Usual time at the port" unit="days" min={0} max={2000} />
          <EditNumber
            edit={edit}
            field="turnaroundDays"
            label="Turnaround, from leaving the port to the next departure"
            unit="days"
            min={0}
            max={2000}
          />
          <EditNumber
            edit={edit}
            field="costPerFlight"
            label="Cost per flight"
            unit={value.costUnit}
            min={0}
            max={1e12}
            emptyWords="not stated"
          />
        </>
      )}
      {!isTanker && (
        <EditNumber
          edit={edit}
          field="costPerFlight"
          label="Cost of a new one, brought to the depot"
          unit={value.costUnit}
          min={0}
          max={1e12}
          emptyWords="not stated"
        />
      )}
      <EditText edit={edit} field="costUnit" label="Cost unit" most={20} placeholder="none: a plain number" />
      <EditNumber
        edit={edit}
        field="hardwareKg"
        label={isTanker ? "Dry mass that a flight uses up" : "What carries a new one to the depot, dry"}
        unit="kg"
        min={0}
        max={1e9}
        emptyWords="not stated"
      />
      {value.propellants.map((line, index) => (
        <CraftPropellantFields
          key={line.propellantId}
          line={line}
          role={value.role}
          propellant={plan.propellants.find(({ id }) => id === line.propellantId)}
          isReadOnly={edit.isReadOnly}
          fault={edit.faultOf(`propellants.${index}`)}
          onCommit={(patch, words) =>
            edit.change(
              {
                propellants: value.propellants.map((other, place) =>
                  place === index ? { ...other, ...patch } : other,
                ),
              },
              words,
            )
          }
          onRemove={() =>
            edit.change({ propellants: value.propellants.filter((_, place) => place !== index) }, "propellants")
          }
        />
      ))}
      {!edit.isReadOnly && free.length > 0 && (
        <FormSection title={value.propellants.length === 0 ? "Carries nothing yet" : "More"}>
          <MenuButton
            label="Add a propellant"
            choices={free.map(({ id, name }) => ({
              id,
              label: name,
              run: () => edit.change({ propellants: [...value.propellants, carriesNothing(id)] }, "propellants"),
            }))}
          />
        </FormSection>
      )}
      <EditNote edit={edit} field="note" label="Note" />
    </>
  );
};
