/** Which stage parts, and where it stays. */
import type { ProfileStep } from "../../../../app/entity/profile.ts";
import { ChoiceField } from "../../../widgets/choice-field.tsx";
import { withStage } from "../edit-steps.ts";
import type { StepFieldsProps } from "../step-fields.ts";
import { StageField } from "./stage-field.tsx";

type Step = Extract<ProfileStep, { kind: "drop stage" }>;

const fates = [
  { id: "dropped", name: "dropped", note: "in space or in flight" },
  { id: "left on the surface", name: "left on the surface" },
] as const;

export const DropStageFields = ({ step, lander, isReadOnly, onChange }: StepFieldsProps<Step>) => (
  <>
    <StageField
      label="What parts"
      stage={step.stage}
      lander={lander}
      isReadOnly={isReadOnly}
      onCommit={(stage) => onChange(withStage(step, stage))}
    />
    <ChoiceField
      label="Where it stays"
      value={step.fate}
      choices={fates}
      isReadOnly={isReadOnly}
      onCommit={(fate) => onChange({ ...step, fate })}
    />
    {step.stage === undefined && (
      <p className="form-advice">The lander itself parts: as the last step alone, and nothing of it comes home.</p>
    )}
  </>
);
