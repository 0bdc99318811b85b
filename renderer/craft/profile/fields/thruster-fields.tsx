/** A burn of the small thrusters: for a Δv, or of a mass. */
import type { ProfileStep } from "../../../../app/entity/profile.ts";
import { ChoiceField } from "../../../widgets/choice-field.tsx";
import { stagesOf } from "../../../../app/sortie/stage.ts";
import { withStage } from "../edit-steps.ts";
import { StageField } from "./stage-field.tsx";
import { NumberField } from "../../../widgets/number-field.tsx";
import type { StepFieldsProps } from "../step-fields.ts";

type Step = Extract<ProfileStep, { kind: "thruster burn" }>;

const kinds = [
  { id: "delta-v", name: "a Δv" },
  { id: "mass", name: "a mass" },
] as const;

export const ThrusterFields = ({ step, lander, isReadOnly, onChange }: StepFieldsProps<Step>) => {
  const { amount } = step;
  const stages = stagesOf(lander);
  const thrustersOf = (stage: string | undefined) =>
    stages.find(({ name }) => name === (stage ?? null))?.thrusters ?? [];
  const thrusters = thrustersOf(step.stage);
  const ofStage = (stage: string | undefined): void =>
    onChange(withStage({ ...step, system: thrustersOf(stage)[0]?.name ?? step.system }, stage));
  const put = (patch: Partial<Step>): void => onChange({ ...step, ...patch });
  return (
    <>
      <StageField label="Burns" stage={step.stage} lander={lander} isReadOnly={isReadOnly} onCommit={ofStage} />
      <ChoiceField
        label="Thrusters"
        value={step.system}
        choices={thrusters.map(({ name }) => ({ id: name, name }))}
        isReadOnly={isReadOnly}
        onCommit={(system) => put({ system })}
      />
      <ChoiceField
        label="Takes"
        value={amount.kind}
        choices={kinds}
        isReadOnly={isReadOnly}
        onCommit={(kind) => put({ amount: kind === "mass" ? { kind, massKg: 50 } : { kind, mPerS: 10 } })}
      />
      {amount.kind === "delta-v" ? (
        <NumberField
          label="Δv"
          unit="m/s"
          min={0}
          max={20_000}
          value={amount.mPerS}
          isReadOnly={isReadOnly}
          onCommit={(mPerS) => put({ amount: { kind: "delta-v", mPerS } })}
        />
      ) : (
        <NumberField
          label="Mass"
          unit="kg"
          min={0}
          max={1e9}
          value={amount.massKg}
          isReadOnly={isReadOnly}
          onCommit={(massKg) => put({ amount: { kind: "mass", massKg } })}
        />
      )}
      <NumberField
        label="Δv margin"
        unit="%"
        min={0}
        max={100}
        value={step.marginPercent}
        isReadOnly={isReadOnly}
        onCommit={(marginPercent) => put({ marginPercent })}
      />
    </>
  );
};
