/** A risk input: what is uncertain, of what, by which law, and on whose word. */
import type { FormProps } from "../editing/editing.ts";
import { type Quantity, type RiskInput, type Uncertainty, quantities } from "../../app/entity/risk-input.ts";
import { lawWords, quantityWords } from "../../app/risk/input-words.ts";
import { EditNote } from "../editing/bound-fields.tsx";
import { CheckField } from "../widgets/check-field.tsx";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { FormSection } from "../widgets/form-row.tsx";
import { TextField } from "../widgets/text-field.tsx";
import { type LawKind, freshUncertainty, lawKinds, lawNames, withLaw } from "./fresh-law.ts";
import { LawFields } from "./law-fields.tsx";
import { subjectChoices, subjectId, withSubject } from "./subject-choices.ts";

const quantityChoices = quantities.map((id) => ({ id, name: quantityWords[id].name }));

export const RiskInputForm = ({ edit }: FormProps<RiskInput>) => {
  const { value, plan, isReadOnly } = edit;
  const { uncertainty, source } = value;
  const put = (next: Uncertainty, words: string): void => edit.change({ uncertainty: next }, words);
  const { quantity } = uncertainty;
  return (
    <>
      <ChoiceField<Quantity>
        label="Quantity"
        value={quantity}
        choices={quantityChoices}
        isReadOnly={isReadOnly}
        origin={quantityWords[quantity].means}
        onCommit={(id) => put(freshUncertainty(id), "quantity")}
      />
      <ChoiceField
        label="Applies to"
        value={subjectId(uncertainty)}
        choices={subjectChoices(plan, quantity)}
        isReadOnly={isReadOnly}
        fault={edit.faultOf("uncertainty.of")}
        origin="the narrowest that is stated counts"
        onCommit={(id) => put(withSubject(plan, uncertainty, id), "what it applies to")}
      />
      <FormSection title="Distribution">
        <ChoiceField<LawKind>
          label="Kind"
          value={uncertainty.law.kind}
          choices={lawKinds[quantity].map((id) => ({ id, name: lawNames[id] }))}
          isReadOnly={isReadOnly}
          onCommit={(kind) => put(withLaw(uncertainty, kind), "distribution")}
        />
        <LawFields
          uncertainty={uncertainty}
          isReadOnly={isReadOnly}
          faultOf={(property) => edit.faultOf(property === "" ? "uncertainty.law" : `uncertainty.law.${property}`)}
          onCommit={(next) => put(next, "distribution")}
        />
        <p className="form-advice">{lawWords(uncertainty)}</p>
      </FormSection>
      <CheckField
        isOn={source === null}
        isReadOnly={isReadOnly}
        onCommit={(isAssumed) => edit.change({ source: isAssumed ? null : "stated" }, "source")}
      >
        Assumed
      </CheckField>
      {source !== null && (
        <TextField
          label="Source"
          value={source}
          most={200}
          isRequired
          isReadOnly={isReadOnly}
          fault={edit.faultOf("source")}
          onCommit={(text) => edit.change({ source: text }, "source")}
        />
      )}
      <EditNote edit={edit} field="note" label="Note" />
    </>
  );
};
