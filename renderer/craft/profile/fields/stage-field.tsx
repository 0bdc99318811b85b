/** Which stage of the lander a step uses; nothing where there is but one. */
import type { Lander } from "../../../../app/entity/lander.ts";
import { ChoiceField } from "../../../widgets/choice-field.tsx";

interface StageFieldProps {
  readonly label: string;
  readonly stage: string | undefined;
  readonly lander: Lander;
  readonly isReadOnly: boolean;
  /** undefined: the lander's own. */
  readonly onCommit: (stage: string | undefined) => void;
}

/** Names have a letter at least, so the empty one stands for the lander's own stage. */
const OWN = "";

export const StageField = ({ label, stage, lander, isReadOnly, onCommit }: StageFieldProps) => {
  const further = lander.furtherStages ?? [];
  if (further.length === 0 && stage === undefined) return null;
  return (
    <ChoiceField
      label={label}
      value={stage ?? OWN}
      choices={[
        { id: OWN, name: "the lander", note: "its own stage, with cargo and crew" },
        ...further.map(({ name }) => ({ id: name, name })),
      ]}
      isReadOnly={isReadOnly}
      onCommit={(id) => onCommit(id === OWN ? undefined : id)}
    />
  );
};
