/** What is dropped: its mass, and the tank volume that goes with it. */
import type { ProfileStep } from "../../../../app/entity/profile.ts";
import { NumberField } from "../../../widgets/number-field.tsx";
import type { StepFieldsProps } from "../step-fields.ts";
import { TankVolumes } from "./tank-volumes.tsx";

type Step = Extract<ProfileStep, { kind: "jettison" }>;

export const JettisonFields = ({ step, lander, propellants, isReadOnly, onChange }: StepFieldsProps<Step>) => {
  const put = (patch: Partial<Step>): void => onChange({ ...step, ...patch });
  return (
    <>
      <NumberField
        label="Mass dropped"
        unit="kg"
        min={0}
        max={1e9}
        step={10}
        value={step.massKg}
        isReadOnly={isReadOnly}
        origin="aboard from the start, without propellant"
        onCommit={(massKg) => put({ massKg })}
      />
      <TankVolumes
        title="Drop tanks"
        tanks={step.tanks}
        fresh={(propellantId) => ({ propellantId, volumeM3: 10, residualKg: 0 })}
        lander={lander}
        propellants={propellants}
        isReadOnly={isReadOnly}
        onChange={(tanks) => put({ tanks })}
        more={{
          label: "Stays in it",
          unit: "kg",
          max: 1e9,
          value: ({ residualKg }) => residualKg,
          put: (tank, residualKg) => ({ ...tank, residualKg }),
        }}
      />
    </>
  );
};
