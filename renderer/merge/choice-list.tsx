/** What can be made of a conflict: one is chosen. */
import type { Choice } from "../../app/merge/merge-choices.ts";
import { RadioList, type RadioOption } from "../widgets/radio-list.tsx";

interface ChoiceListProps {
  readonly value: Choice | null;
  /** What keeping both would do; null: it cannot be. */
  readonly bothWords: string | null;
  readonly onChoose: (choice: Choice) => void;
}

const options: readonly RadioOption<Choice>[] = [
  { id: "keep ours", name: "Keep ours", words: "Nothing of this comes in." },
  { id: "take theirs", name: "Take theirs", words: "Ours is reversed, never deleted." },
];

export const ChoiceList = ({ value, bothWords, onChoose }: ChoiceListProps) => (
  <RadioList
    label="What stands"
    value={value}
    options={bothWords === null ? options : [...options, { id: "keep both", name: "Keep both", words: bothWords }]}
    onChoose={onChoose}
  />
);
