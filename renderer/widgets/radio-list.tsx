/** A few ways of which one is chosen, each with words on what it means: for a choice that is the whole question. */
import { Radio, RadioGroup } from "react-aria-components";
import "./radio-list.css";

export interface RadioWay<T extends string> {
  readonly id: T;
  readonly name: string;
  readonly words: string;
}

interface RadioListProps<T extends string> {
  readonly label: string;
  /** null: none is chosen yet. */
  readonly value: T | null;
  readonly ways: readonly RadioWay<T>[];
  readonly onChoose: (id: T) => void;
}

export const RadioList = <T extends string>({ label, value, ways, onChoose }: RadioListProps<T>) => (
  <RadioGroup
    className="radio-list"
    aria-label={label}
    value={value}
    onChange={(chosen) => {
      const way = ways.find(({ id }) => id === chosen);
      if (way !== undefined) onChoose(way.id);
    }}
  >
    {ways.map(({ id, name, words }) => (
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
