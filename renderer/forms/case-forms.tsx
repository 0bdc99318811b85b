/** Plan cases and campaigns. */
import type { FormProps } from "../editing/editing.ts";
import type { Campaign, PlanCase } from "../../app/entity/plan-case.ts";
import { EditChoice, EditInstant, EditNote, EditNumber, EditText } from "../editing/bound-fields.tsx";

export const PlanCaseForm = ({ edit }: FormProps<PlanCase>) => (
  <>
    <EditText edit={edit} field="name" label="Name" isRequired />
    <EditChoice
      edit={edit}
      field="shortPolicy"
      label="If a sortie is short"
      choices={[
        { id: "stand down", name: "stand down", note: "draws nothing" },
        { id: "wait", name: "wait", note: "for a window at which it can load" },
      ]}
    />
    <EditInstant edit={edit} field="horizonAt" label="Forecast ends" earliestAt={edit.plan.asOfAt} />
    <EditNumber edit={edit} field="position" label="Place in the list" unit="" min={0} max={9999} isWhole />
    <EditNote edit={edit} field="note" label="Note" />
  </>
);

export const CampaignForm = ({ edit }: FormProps<Campaign>) => (
  <>
    <EditText edit={edit} field="name" label="Name" isRequired others={edit.plan.campaigns} />
    <EditText edit={edit} field="goal" label="Goal" most={200} />
    <EditNumber
      edit={edit}
      field="holdLimitDays"
      label="Maximum wait"
      unit="days"
      min={0}
      max={36_525}
      origin="then stand down"
    />
  </>
);
