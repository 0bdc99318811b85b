/** What is to stay above the reserve after each loading, propellant by propellant. */
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { ResupplyAsked } from "../../app/resupply/asked.ts";
import { NumberField } from "../widgets/number-field.tsx";

interface MarginsProps {
  readonly plan: PlanSnapshot;
  readonly margins: ResupplyAsked["margins"];
  readonly onChange: (margins: ResupplyAsked["margins"]) => void;
}

const MAX_KG = 1e9;

export const Margins = ({ plan, margins, onChange }: MarginsProps) => {
  const held = plan.propellants.filter(({ id }) =>
    plan.tanks.some(({ ownerKind, propellantId }) => ownerKind === "depot" && propellantId === id),
  );
  return held.map(({ id, name }) => {
    const own = margins.find(({ propellantId }) => propellantId === id);
    const others = margins.filter(({ propellantId }) => propellantId !== id);
    return (
      <NumberField
        key={id}
        label={`${name} above the reserve`}
        unit={own === undefined ? "" : "kg"}
        min={0}
        max={MAX_KG}
        value={own?.massKg ?? null}
        placeholder="no margin"
        onCommit={(massKg) => onChange([...others, { propellantId: id, massKg }])}
        onClear={() => onChange(others)}
      />
    );
  });
};
