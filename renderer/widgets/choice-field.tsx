/** One of a few: a list that opens under the field. */
import {
  Button as AriaButton,
  Label,
  ListBox,
  ListBoxItem,
  Popover,
  Select,
  SelectValue,
  Text,
} from "react-aria-components";
import { FieldLine, type FieldWords } from "./form-row.tsx";
import "./choice-field.css";

export interface Choice<T extends string> {
  readonly id: T;
  readonly name: string;
  /** A few words more, in the open list. */
  readonly note?: string;
}

export interface ChoiceFieldProps<T extends string> extends FieldWords {
  readonly value: T | null;
  readonly choices: readonly Choice<T>[];
  readonly onCommit: (id: T) => void;
  readonly emptyWords?: string;
  readonly isReadOnly?: boolean;
  readonly isBare?: boolean;
}

/** A choice is fixed where nothing may be changed: the whole ledger, or what a record states. */
const FIXED = "Cannot be changed here: the ledger is read-only, or a record states it.";

export const ChoiceField = <T extends string>(props: ChoiceFieldProps<T>) => {
  const { value, choices, onCommit, isBare = false } = props;
  const fault = props.fault ?? null;
  return (
    <Select
      className={isBare ? "form-row bare-field" : "form-row"}
      value={value}
      onChange={(key) => {
        const chosen = choices.find((choice) => choice.id === key);
        if (chosen !== undefined && chosen.id !== value) onCommit(chosen.id);
      }}
      isDisabled={props.isReadOnly ?? false}
      isInvalid={fault !== null}
      validationBehavior="aria"
      placeholder={props.emptyWords ?? "choose"}
      {...(isBare ? { "aria-label": props.label } : {})}
    >
      {!isBare && <Label className="field-label">{props.label}</Label>}
      <AriaButton
        className="field-control choice-button"
        render={(dom) => <button {...dom} title={props.isReadOnly === true ? FIXED : undefined} />}
      >
        <SelectValue className="choice-value">
          {({ isPlaceholder, defaultChildren }) =>
            isPlaceholder ? defaultChildren : choices.find((choice) => choice.id === value)?.name
          }
        </SelectValue>
        <svg viewBox="0 0 10 10" aria-hidden="true">
          <path d="M2 3.5 5 6.5 8 3.5" />
        </svg>
      </AriaButton>
      <FieldLine fault={fault} origin={props.origin ?? null} />
      <Popover className="popover choice-popover" placement="bottom start">
        <ListBox className="choice-list" items={choices}>
          {(choice) => (
            <ListBoxItem id={choice.id} textValue={choice.name} className="choice-item">
              <Text slot="label">{choice.name}</Text>
              {choice.note !== undefined && (
                <Text slot="description" className="choice-note">
                  {choice.note}
                </Text>
              )}
            </ListBoxItem>
          )}
        </ListBox>
      </Popover>
    </Select>
  );
};
