/** A loss period: what a tank loses between two instants, and why that is believed. */
import type { FormProps } from "../editing/editing.ts";
import type { LossPeriod } from "../../app/entity/loss-period.ts";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { FormSection } from "../widgets/form-row.tsx";
import { EditChoice, EditInstant, EditNote, EditText } from "../editing/bound-fields.tsx";
import { tankName } from "../names/entity-words.ts";
import { BasisFields } from "./heat/basis-fields.tsx";

export const LossPeriodForm = ({ edit }: FormProps<LossPeriod>) => {
  const { value, plan } = edit;
  return (
    <>
      <EditChoice
        edit={edit}
        field="tankId"
        label="Tank"
        choices={plan.tanks.map(({ id }) => ({ id, name: tankName(plan, id) }))}
      />
      <EditText edit={edit} field="reason" label="Reason" most={120} isRequired />
      <ChoiceField
        label="Applies to"
        value={value.planCaseId === null ? "all" : "this"}
        choices={[
          { id: "all", name: "every plan case" },
          { id: "this", name: `${plan.planCase.name} only` },
        ]}
        isReadOnly={edit.isReadOnly}
        fault={edit.faultOf("planCaseId")}
        onCommit={(id) => edit.change({ planCaseId: id === "all" ? null : plan.planCase.id }, "what it holds for")}
      />
      <EditInstant edit={edit} field="fromAt" label="From" emptyWords="the beginning" />
      <EditInstant
        edit={edit}
        field="untilAt"
        label="Until"
        emptyWords="further notice"
        {...(value.fromAt === null ? {} : { earliestAt: value.fromAt })}
      />
      <FormSection title="Loss rate">
        <BasisFields edit={edit} />
      </FormSection>
      <p className="form-advice">Where periods overlap, the one that began last is in force.</p>
      <EditNote edit={edit} field="note" label="Note" />
    </>
  );
};
