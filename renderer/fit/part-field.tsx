/** Which part of a loss rate is fitted: the proportional loss k, the constant loss c, or both. */
import type { Input } from "../../app/contract/contract.ts";
import { ChoiceField } from "../widgets/choice-field.tsx";

export type FittedPart = Input<"losses.fit">["fitted"];

const parts: readonly { readonly id: FittedPart; readonly name: string; readonly note: string }[] = [
  { id: "k", name: "k alone", note: "proportional loss, of what is there; c is held" },
  { id: "c", name: "c alone", note: "constant loss, in kg a day; k is held" },
  { id: "k and c", name: "k and c", note: "needs readings at very different levels" },
];

interface PartFieldProps {
  readonly value: FittedPart;
  readonly onCommit: (part: FittedPart) => void;
}

export const PartField = ({ value, onCommit }: PartFieldProps) => (
  <ChoiceField label="Fit" value={value} choices={parts} onCommit={onCommit} />
);
