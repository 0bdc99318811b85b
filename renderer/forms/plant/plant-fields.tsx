/** A plant that makes propellant from water: what comes in, what is made of it, what it takes; the result as one types. */
import { useState } from "react";
import type { Source } from "../../../app/entity/source.ts";
import type { WaterPlant } from "../../../app/entity/water-plant.ts";
import { freshPlant, plantOrigins } from "../../../app/plant/fresh-plant.ts";
import { useSession } from "../../state/use-session.ts";
import { Button } from "../../widgets/button.tsx";
import { FormSection } from "../../widgets/form-row.tsx";
import { NumberField, type NumberFieldProps } from "../../widgets/number-field.tsx";
import type { Editing } from "../../editing/editing.ts";
import { numberOf, type Part, partOf } from "../part.ts";
import { DutyFields } from "./duty-fields.tsx";
import { PlantResult } from "./plant-result.tsx";
import "../heat/heat.css";

type Figure = Exclude<keyof WaterPlant, "duty">;
type FigureRange = Pick<NumberFieldProps, "unit" | "min" | "max"> & Partial<Pick<NumberFieldProps, "step" | "isWhole">>;

interface FigureFieldProps extends FigureRange {
  readonly part: Part<WaterPlant>;
  readonly field: Figure;
  readonly label: string;
}

const FigureField = ({ part, field, label, ...range }: FigureFieldProps) => (
  <NumberField {...numberOf(part, field, label.toLowerCase())} label={label} {...range} origin={plantOrigins[field]} />
);

/** 0.95 as 95, without the last digits of a product. */
const asPercent = (share: number): number => Number((100 * share).toPrecision(12));

const RecoveryField = ({ part }: { part: Part<WaterPlant> }) => {
  const { value, isReadOnly } = part;
  const put = (percent: number): WaterPlant => ({ ...value, recoveryFraction: percent / 100 });
  return (
    <NumberField
      label="Recovered"
      unit="%"
      min={0}
      max={100}
      value={asPercent(value.recoveryFraction)}
      isReadOnly={isReadOnly}
      origin={plantOrigins.recoveryFraction}
      onCommit={(percent) => part.commit(put(percent), "recovery")}
      onType={(percent) => part.type(percent === null ? null : put(percent))}
    />
  );
};

export const PlantFields = ({ edit }: { edit: Editing<Source> }) => {
  const { value, plan, isReadOnly } = edit;
  const { plant } = value;
  const session = useSession();
  const [typed, setTyped] = useState<WaterPlant | null>(null);
  if (plant === null) {
    return (
      <>
        <p className="form-advice">What it makes is not described.</p>
        {!isReadOnly && (
          <Button onPress={() => edit.change({ plant: freshPlant(plan.asOfAt, plan.horizonAt) }, "what it makes")}>
            Describe what it makes
          </Button>
        )}
      </>
    );
  }
  const part: Part<WaterPlant> = {
    value: plant,
    isReadOnly,
    commit: (next, words) => {
      setTyped(null);
      edit.change({ plant: next }, words);
    },
    type: setTyped,
  };
  const fault = edit.faultOf("plant");
  return (
    <div className="heat-balance">
      <PlantResult plant={typed ?? plant} untilAt={plan.horizonAt} isTyped={typed !== null} />
      {!edit.isNew && !isReadOnly && (
        <Button
          look="primary"
          onPress={() => session.openDialog("plan.plantFlights", { subject: { kind: "source", id: value.id } })}
        >
          Create flights from its loads…
        </Button>
      )}
      {fault !== null && (
        <p className="form-fault" role="alert">
          Not saved: {fault}.
        </p>
      )}
      <FormSection title="Water">
        <FigureField part={part} field="waterKgPerDay" label="Water" unit="kg/day" min={0} max={1e7} step={10} />
        <RecoveryField part={part} />
        <FigureField part={part} field="mixtureRatio" label="Mixture ratio" unit="" min={0.1} max={100} step={0.1} />
      </FormSection>
      <FormSection title="Oxygen left over">
        <FigureField part={part} field="persons" label="Breathing" unit="persons" min={0} max={1000} isWhole />
        <FigureField
          part={part}
          field="fuelCellKWhPerDay"
          label="Fuel cells"
          unit="kWh/day"
          min={0}
          max={1e7}
          step={10}
        />
        {plant.fuelCellKWhPerDay > 0 && (
          <>
            <FigureField
              part={part}
              field="fuelCellHydrogenKgPerKWh"
              label="of hydrogen"
              unit="kg/kWh"
              min={0}
              max={1}
            />
            <FigureField part={part} field="fuelCellOxygenKgPerKWh" label="of oxygen" unit="kg/kWh" min={0} max={8} />
          </>
        )}
        <p className="form-advice">First breathed, then burned in fuel cells; what is left is vented.</p>
      </FormSection>
      <FormSection title="Energy per kg">
        <FigureField
          part={part}
          field="electrolysisKWhPerKgHydrogen"
          label="Electrolysis, H₂"
          unit="kWh/kg"
          min={0}
          max={1000}
        />
        <FigureField
          part={part}
          field="liquefactionKWhPerKgHydrogen"
          label="Liquefying H₂"
          unit="kWh/kg"
          min={0}
          max={1000}
        />
        <FigureField
          part={part}
          field="liquefactionKWhPerKgOxygen"
          label="Liquefying O₂"
          unit="kWh/kg"
          min={0}
          max={1000}
          step={0.1}
        />
      </FormSection>
      <DutyFields part={partOf(part, "duty")} asOfAt={plan.asOfAt} />
    </div>
  );
};
