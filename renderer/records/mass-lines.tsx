/** Masses by tank or by propellant, one line each. */
import type { TankAmount } from "../../app/forecast/outcome.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { formatMass } from "../format/mass.ts";
import { tankName } from "../names/entity-words.ts";
import { FormSection } from "../widgets/form-row.tsx";
import { NumberField } from "../widgets/number-field.tsx";
import type { PropellantMass } from "./prefill.ts";
import { nameIn } from "../../app/words/named.ts";

interface LinesProps<L> {
  readonly title: string;
  readonly plan: PlanSnapshot;
  readonly lines: readonly L[];
  readonly onChange: (lines: readonly L[]) => void;
  readonly fault: string | null;
}

const MAX_KG = 1e9;

export const TankLines = ({ title, plan, lines, onChange, fault }: LinesProps<TankAmount>) => (
  <FormSection title={title}>
    {lines.length === 0 && <p className="form-advice">The depot has no tank for it.</p>}
    {lines.map(({ tankId, massKg }, index) => {
      const tank = plan.tanks.find(({ id }) => id === tankId);
      return (
        <NumberField
          key={tankId}
          label={tankName(plan, tankId)}
          unit="kg"
          min={0}
          max={MAX_KG}
          decimals={3}
          step={10}
          value={massKg}
          origin={tank === undefined ? null : `may hold ${formatMass(tank.maximumFillKg)}`}
          fault={index === 0 ? fault : null}
          onCommit={(value) =>
            onChange(lines.map((line) => (line.tankId === tankId ? { tankId, massKg: value } : line)))
          }
        />
      );
    })}
  </FormSection>
);

export const PropellantLines = ({ title, plan, lines, onChange, fault }: LinesProps<PropellantMass>) => (
  <FormSection title={title}>
    {lines.map(({ propellantId, massKg }, index) => (
      <NumberField
        key={propellantId}
        label={nameIn(plan.propellants, propellantId)}
        unit="kg"
        min={0}
        max={MAX_KG}
        decimals={3}
        step={10}
        value={massKg}
        fault={index === 0 ? fault : null}
        onCommit={(value) =>
          onChange(lines.map((line) => (line.propellantId === propellantId ? { propellantId, massKg: value } : line)))
        }
      />
    ))}
  </FormSection>
);

/** Lines of nothing are left out of what is sent. */
export const moved = <L extends { readonly massKg: number }>(lines: readonly L[]): L[] =>
  lines.filter(({ massKg }) => massKg > 0);
