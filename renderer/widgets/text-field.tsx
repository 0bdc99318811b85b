/** A line of text. */
import { Input, Label, TextField as AriaTextField } from "react-aria-components";
import { draftKeys, useDraft } from "./draft.ts";
import { FieldLine, type FieldWords } from "./form-row.tsx";

export interface TextFieldProps extends FieldWords {
  readonly value: string;
  readonly onCommit: (text: string) => void;
  readonly most: number;
  readonly isRequired?: boolean;
  readonly isReadOnly?: boolean;
  readonly placeholder?: string;
  readonly autoFocus?: boolean;
  /** What can be so and is hardly meant of what is typed; null: nothing. */
  readonly doubt?: (text: string) => string | null;
  /** What else is wrong with a text of the right length, in words; null: nothing. */
  readonly check?: (text: string) => string | null;
}

export const TextField = (props: TextFieldProps) => {
  const { value, onCommit, most, isRequired = false, isReadOnly = false } = props;
  const check = (text: string): string | null => {
    const length = text.trim().length;
    if (isRequired && length === 0) return "Required.";
    if (length > most) return `At most ${most} characters; these are ${length}.`;
    return props.check?.(text) ?? null;
  };
  const draft = useDraft(value, check, (text) => onCommit(text.trim()));
  const fault = draft.fault ?? props.fault ?? null;
  return (
    <AriaTextField
      className="form-row"
      value={draft.text}
      onChange={draft.type}
      onBlur={draft.commit}
      isInvalid={fault !== null}
      isReadOnly={isReadOnly}
      isRequired={isRequired}
      validationBehavior="aria"
      {...(props.autoFocus === undefined ? {} : { autoFocus: props.autoFocus })}
    >
      <Label className="field-label">{props.label}</Label>
      <div className="field-control">
        <Input
          className="field-input"
          onKeyDown={draftKeys(draft)}
          spellCheck={false}
          autoComplete="off"
          {...(props.placeholder === undefined ? {} : { placeholder: props.placeholder })}
        />
      </div>
      <FieldLine
        fault={fault}
        caution={props.doubt?.(draft.text) ?? props.caution ?? null}
        origin={props.origin ?? null}
      />
    </AriaTextField>
  );
};
