/** A few options of which one is chosen, each with words on what it means: for a choice that is the whole question. */
import { Radio, RadioGroup } from "react-aria-components";
import "./radio-list.css";

export interface RadioOption<T extends string> {
  readonly id: T;
  readonly name: string;
  readonly words: string;
}

interface RadioListProps<T extends string> {
  readonly label: string;
  /** null: none is chosen yet. */
  readonly value: T | null;
  readonly options: readonly RadioOption<T>[];
  readonly onChoose: (id: T) => void;
}

export const RadioList = <T extends string>({ label, value, options, onChoose }: RadioListProps<T>) => (
  <RadioGroup
    className="radio-list"
    aria-label={label}
    value={value}
    onChange={(chosen) => {
      const option = options.find(({ id }) => id === chosen);
      if (option !== undefined) onChoose(option.id);
    }}
  >
    {options.map(({ id, name, words }) => (
      <Radio key={id} value={id} className="radio-choice">
        <span className="radio-mark" aria-hidden="true" />
        <span>
          <strong>{name}</strong>
          <span className="radio-words">{words}</span>
        </span>
      </Radio>
    ))}
  </RadioGroup>
);
