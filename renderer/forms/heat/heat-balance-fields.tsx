/** The heat balance of a tank: pressure, insulation, further paths, environment, coolers; what follows from it as one types. */
import { useState } from "react";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import type { HeatBalance } from "../../../app/entity/heat-balance.ts";
import { HIGHEST_PRESSURE_KPA, LOWEST_PRESSURE_KPA } from "../../../app/fluid/saturation.ts";
import { FormSection } from "../../widgets/form-row.tsx";
import { NumberField } from "../../widgets/number-field.tsx";
import { CoolerFields } from "./cooler-fields.tsx";
import { HeatPathFields } from "./heat-path-fields.tsx";
import { HeatResult } from "./heat-result.tsx";
import { InsulationFields } from "./insulation-fields.tsx";
import { numberOf, type Part, partOf } from "../part.ts";
import "./heat.css";

interface HeatBalanceFieldsProps {
  readonly balance: HeatBalance;
  readonly plan: PlanSnapshot;
  readonly tankId: string;
  readonly isReadOnly: boolean;
  readonly fault: string | null;
  readonly onCommit: (next: HeatBalance, words: string) => void;
}

export const HeatBalanceFields = ({ balance, plan, tankId, isReadOnly, fault, onCommit }: HeatBalanceFieldsProps) => {
  const [typed, setTyped] = useState<HeatBalance | null>(null);
  const whole: Part<HeatBalance> = {
    value: balance,
    isReadOnly,
    commit: (next, words) => {
      setTyped(null);
      onCommit(next, words);
    },
    type: setTyped,
  };
  return (
    <div className="heat-balance">
      <HeatResult balance={typed ?? balance} plan={plan} tankId={tankId} isTyped={typed !== null} />
      {fault !== null && (
        <p className="form-fault" role="alert">
          Not saved: {fault}.
        </p>
      )}
      <FormSection title="Tank">
        <NumberField
          {...numberOf(whole, "pressureKPa", "pressure")}
          label="Pressure"
          unit="kPa"
          min={LOWEST_PRESSURE_KPA}
          max={HIGHEST_PRESSURE_KPA}
          step={5}
          origin="at which it vents; sets the temperature of the liquid"
        />
        <NumberField
          {...numberOf(whole, "environmentFactor", "environment factor")}
          label="Environment"
          unit="×"
          min={0}
          max={50}
          step={0.05}
          origin="on all heat: sun angle, eclipse season, attitude"
        />
      </FormSection>
      <InsulationFields part={partOf(whole, "insulation")} />
      <HeatPathFields part={partOf(whole, "paths")} />
      <CoolerFields part={partOf(whole, "coolers")} balance={balance} />
    </div>
  );
};
