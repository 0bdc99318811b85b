/** Cargo and people that come aboard or leave. */
import type { ProfileStep } from "../../../../app/entity/profile.ts";
import { ChoiceField } from "../../../widgets/choice-field.tsx";
import { NumberField } from "../../../widgets/number-field.tsx";
import type { StepFieldsProps } from "../step-fields.ts";

type Step = Extract<ProfileStep, { kind: "load change" }>;

const cargo = [
  { id: "put off", name: "what it takes down is put off" },
  { id: "take aboard", name: "what it brings up comes aboard" },
  { id: "none", name: "stays as it is" },
] as const;

export const LoadFields = ({ step, isReadOnly, onChange }: StepFieldsProps<Step>) => {
  const put = (patch: Partial<Step>): void => onChange({ ...step, ...patch });
  return (
    <>
      <ChoiceField
        label="The sortie's cargo"
        value={step.sortieCargo}
        choices={cargo}
        isReadOnly={isReadOnly}
        onCommit={(sortieCargo) => put({ sortieCargo })}
      />
      <NumberField
        label="Plus fixed"
        unit="kg"
        min={-1e7}
        max={1e7}
        step={10}
        value={step.cargoKg}
        isReadOnly={isReadOnly}
        origin="+ aboard, − off"
        onCommit={(cargoKg) => put({ cargoKg })}
      />
      <NumberField
        label="Persons"
        unit=""
        min={-100}
        max={100}
        isWhole
        value={step.persons}
        isReadOnly={isReadOnly}
        origin="+ come aboard, − leave"
        onCommit={(persons) => put({ persons })}
      />
    </>
  );
};
