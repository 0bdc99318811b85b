/** A number with its unit: any way of writing it, its range as one types, arrows to step. Nothing is clamped in silence. */
import { Input, Label, TextField as AriaTextField } from "react-aria-components";
import { type Draft, draftKeys, useDraft } from "./draft.ts";
import { FieldLine, type FieldWords } from "./form-row.tsx";
import { type NumberRange, figure, rangeWords, readNumber } from "./number-text.ts";

export interface NumberFieldProps extends FieldWords, NumberRange {
  readonly value: number | null;
  /** What the arrows add; the value's own size decides where it is not given. */
  readonly step?: number;
  /** Most decimals shown. */
  readonly decimals?: number;
  readonly onCommit: (value: number) => void;
  /** Called as one types: with the number typed so far, or null where it cannot be taken or the typing was given up. */
  readonly onType?: (value: number | null) => void;
  /** Given: the field may be empty, and this is called when it is emptied. */
  readonly onClear?: () => void;
  readonly isReadOnly?: boolean;
  readonly placeholder?: string;
  readonly autoFocus?: boolean;
  /** Label for screen readers alone: the field stands in a table. */
  readonly isBare?: boolean;
}

export const NumberField = (props: NumberFieldProps) => {
  const { value, onCommit, onClear, unit, decimals = 6, isBare = false } = props;
  const shown = value === null ? "" : figure(value, decimals);
  const isEmptyAllowed = onClear !== undefined;
  const check = (text: string): string | null => {
    if (isEmptyAllowed && text.trim() === "") return null;
    const reading = readNumber(text, props);
    return reading.ok ? null : reading.fault;
  };
  const held = useDraft(shown, check, (text) => {
    const reading = readNumber(text, props);
    if (reading.ok) onCommit(reading.value);
    else onClear?.();
  });
  const draft: Draft = {
    ...held,
    type: (text) => {
      held.type(text);
      const reading = readNumber(text, props);
      props.onType?.(reading.ok ? reading.value : null);
    },
    revert: () => {
      held.revert();
      props.onType?.(null);
    },
  };
  const step = (by: number): void => {
    const reading = readNumber(draft.text === "" ? String(props.min) : draft.text, props);
    if (!reading.ok) return;
    const next = reading.value + by * (props.step ?? 1);
    draft.type(figure(Math.min(props.max, Math.max(props.min, Number(next.toPrecision(12)))), decimals));
  };
  const fault = draft.fault ?? props.fault ?? null;
  const hint = rangeWords(props) + (isEmptyAllowed ? ", or empty" : "");
  return (
    <AriaTextField
      className={isBare ? "form-row bare-field" : "form-row"}
      value={draft.text}
      onChange={draft.type}
      onBlur={draft.commit}
      isInvalid={fault !== null}
      isReadOnly={props.isReadOnly ?? false}
      validationBehavior="aria"
      {...(isBare ? { "aria-label": `${props.label}, ${unit}` } : {})}
      {...(props.autoFocus === undefined ? {} : { autoFocus: props.autoFocus })}
    >
      {!isBare && <Label className="field-label">{props.label}</Label>}
      <div className="field-control" data-worded={/^[^\d]+$/.test(props.placeholder ?? "") || undefined}>
        <Input
          className="field-input field-number figures"
          inputMode="decimal"
          autoComplete="off"
          onFocus={(event) => event.currentTarget.select()}
          onKeyDown={draftKeys(draft, step)}
          {...(props.placeholder === undefined ? {} : { placeholder: props.placeholder })}
        />
        {unit !== "" && <span className="field-unit">{unit}</span>}
      </div>
      <FieldLine fault={fault} caution={props.caution ?? null} hint={hint} origin={props.origin ?? null} />
    </AriaTextField>
  );
};
