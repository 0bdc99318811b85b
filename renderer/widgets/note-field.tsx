/** Several lines of text: a note, a reason. */
import { Label, TextArea, TextField as AriaTextField } from "react-aria-components";
import { useDraft } from "./draft.ts";
import { FieldLine, type FieldWords } from "./form-row.tsx";

export interface NoteFieldProps extends FieldWords {
  readonly value: string;
  readonly onCommit: (text: string) => void;
  readonly most?: number;
  readonly isReadOnly?: boolean;
  readonly isRequired?: boolean;
}

export const NoteField = (props: NoteFieldProps) => {
  const { value, onCommit, most = 2000, isReadOnly = false } = props;
  const check = (text: string): string | null =>
    text.length > most ? `At most ${most} characters; these are ${text.length}.` : null;
  const draft = useDraft(value, check, onCommit);
  const fault = draft.fault ?? props.fault ?? null;
  return (
    <AriaTextField
      className="form-row note-row"
      value={draft.text}
      onChange={draft.type}
      onBlur={draft.commit}
      isInvalid={fault !== null}
      isReadOnly={isReadOnly}
      isRequired={props.isRequired ?? false}
      validationBehavior="aria"
    >
      <Label className="field-label">{props.label}</Label>
      <div className="field-control">
        <TextArea className="field-input note-input" rows={3} />
      </div>
      <FieldLine fault={fault} origin={props.origin ?? null} />
    </AriaTextField>
  );
};
