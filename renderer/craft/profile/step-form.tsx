/** The fields of one step, by its kind. */
import type { StepFieldsProps } from "./step-fields.ts";
import type { ComponentType } from "react";
import type { ProfileStep } from "../../../app/entity/profile.ts";
import { TextField } from "../../widgets/text-field.tsx";
import { BurnFields } from "./fields/burn-fields.tsx";
import { CacheFields, TakeUpFields } from "./fields/cache-fields.tsx";
import { DropStageFields } from "./fields/drop-stage-fields.tsx";
import { JettisonFields } from "./fields/jettison-fields.tsx";
import { LoadFields } from "./fields/load-fields.tsx";
import { StayFields } from "./fields/stay-fields.tsx";
import { ThrusterFields } from "./fields/thruster-fields.tsx";

type Fields = {
  readonly [K in ProfileStep["kind"]]: ComponentType<StepFieldsProps<Extract<ProfileStep, { kind: K }>>>;
};

const fields: Fields = {
  burn: BurnFields,
  "thruster burn": ThrusterFields,
  stay: StayFields,
  "load change": LoadFields,
  jettison: JettisonFields,
  "drop stage": DropStageFields,
  "leave cache": CacheFields,
  "take up cache": TakeUpFields,
};

export const StepForm = (props: StepFieldsProps) => {
  const Form = fields[props.step.kind] as ComponentType<StepFieldsProps>;
  return (
    <div className="step-form">
      <TextField
        label="Name"
        most={80}
        isRequired
        value={props.step.name}
        isReadOnly={props.isReadOnly}
        onCommit={(name) => props.onChange({ ...props.step, name })}
      />
      <Form {...props} />
    </div>
  );
};
