/** A coast or stay: how long, what power it draws, who lives from the tanks, what is lost where that differs. */
import type { ProfileStep } from "../../../../app/entity/profile.ts";
import { NumberField } from "../../../widgets/number-field.tsx";
import type { StepFieldsProps } from "../step-fields.ts";
import { withStage } from "../edit-steps.ts";
import { StageField } from "./stage-field.tsx";
import { StayLosses } from "./stay-losses.tsx";

type Step = Extract<ProfileStep, { kind: "stay" }>;

export const StayFields = ({ step, lander, propellants, isReadOnly, onChange }: StepFieldsProps<Step>) => {
  const put = (patch: Partial<Step>): void => onChange({ ...step, ...patch });
  return (
    <>
      <NumberField
        label="Lasts"
        unit="days"
        min={0}
        max={36_525}
        value={step.days}
        isReadOnly={isReadOnly}
        onCommit={(days) => put({ days })}
      />
      <NumberField
        label="Power from fuel cells"
        unit="kW"
        min={0}
        max={10_000}
        value={step.powerKw}
        isReadOnly={isReadOnly}
        onCommit={(powerKw) => put({ powerKw })}
      />
      <NumberField
        label="Living from the tanks"
        unit={step.crew === null ? "" : "persons"}
        min={0}
        max={100}
        isWhole
        value={step.crew}
        placeholder="those aboard"
        isReadOnly={isReadOnly}
        onCommit={(crew) => put({ crew })}
        onClear={() => put({ crew: null })}
      />
      <StageField
        label="Takes from"
        stage={step.stage}
        lander={lander}
        isReadOnly={isReadOnly}
        onCommit={(stage) => onChange(withStage(step, stage))}
      />
      <StayLosses
        losses={step.losses}
        lander={lander}
        propellants={propellants}
        isReadOnly={isReadOnly}
        onChange={(losses) => put({ losses })}
      />
    </>
  );
};
