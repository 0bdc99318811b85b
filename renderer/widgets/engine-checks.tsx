/** Engines by number, each on or off; at least one stays on. */
import { CheckField } from "../widgets/check-field.tsx";
import "./engine-checks.css";

interface EngineChecksProps {
  readonly label: string;
  /** How many engines there are. */
  readonly count: number;
  readonly chosen: readonly number[];
  readonly isReadOnly: boolean;
  readonly onChange: (engineNumbers: number[]) => void;
}

export const EngineChecks = ({ label, count, chosen, isReadOnly, onChange }: EngineChecksProps) => {
  const toggle = (number: number, isOn: boolean): void => {
    const next = isOn ? [...chosen, number].toSorted((a, b) => a - b) : chosen.filter((other) => other !== number);
    if (next.length > 0) onChange(next);
  };
  return (
    <fieldset className="form-row engine-checks" aria-label={label}>
      <span className="field-label">{label}</span>
      <div>
        {Array.from({ length: count }, (_, index) => index + 1).map((number) => (
          <CheckField
            key={number}
            isOn={chosen.includes(number)}
            isReadOnly={isReadOnly}
            onCommit={(isOn) => toggle(number, isOn)}
          >
            <span className="figures">{number}</span>
          </CheckField>
        ))}
      </div>
    </fieldset>
  );
};
