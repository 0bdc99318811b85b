/** How many engines a burn lights, and which: by the lander's rule, or by name. */
import type { BurnStep } from "../../../../app/entity/profile.ts";
import { ChoiceField } from "../../../widgets/choice-field.tsx";
import { NumberField } from "../../../widgets/number-field.tsx";
import { EngineChecks } from "../../../widgets/engine-checks.tsx";
import type { EngineSet } from "../../../../app/entity/lander.ts";
import type { StepFieldsProps } from "../step-fields.ts";

type LitFieldsProps = Pick<StepFieldsProps<BurnStep>, "step" | "isReadOnly" | "onChange"> & {
  /** Of the stage that burns. */
  readonly engines: EngineSet;
};

/** The step with so many engines, left to the rule. */
const byRule = (step: BurnStep, enginesLit: number | null): BurnStep => {
  const { engineNumbers: _dropped, ...others } = step;
  return { ...others, enginesLit };
};

const firstOnes = (count: number): number[] => Array.from({ length: count }, (_, index) => index + 1);

export const LitFields = ({ step, engines, isReadOnly, onChange }: LitFieldsProps) => {
  const { count, choice } = engines;
  const lit = step.engineNumbers?.length ?? step.enginesLit ?? count;
  const rule =
    choice === "least worn" ? "the least worn" : lit === 1 ? "engine 1, every time" : `1 to ${String(lit)}, every time`;
  const name = (engineNumbers: number[]): void =>
    onChange({ ...step, enginesLit: engineNumbers.length, engineNumbers });
  return (
    <>
      <NumberField
        label="Engines lit"
        unit={`of ${String(count)}`}
        min={1}
        max={count}
        isWhole
        value={step.engineNumbers?.length ?? step.enginesLit}
        placeholder="all"
        isReadOnly={isReadOnly}
        onCommit={(enginesLit) => onChange(byRule(step, enginesLit))}
        onClear={() => onChange(byRule(step, null))}
      />
      {(lit < count || step.engineNumbers !== undefined) && (
        <ChoiceField
          label="Which"
          value={step.engineNumbers === undefined ? "rule" : "named"}
          choices={[
            { id: "rule", name: rule, note: "as the lander's sheet says" },
            { id: "named", name: "these", note: "named for this step" },
          ]}
          isReadOnly={isReadOnly}
          onCommit={(way) => (way === "named" ? name(firstOnes(lit)) : onChange(byRule(step, lit)))}
        />
      )}
      {step.engineNumbers !== undefined && (
        <EngineChecks
          label="Engines"
          count={count}
          chosen={step.engineNumbers}
          isReadOnly={isReadOnly}
          onChange={name}
        />
      )}
    </>
  );
};
