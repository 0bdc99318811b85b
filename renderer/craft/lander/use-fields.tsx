/** What power and people take from the tanks. */
import { FormSection } from "../../widgets/form-row.tsx";
import { NumberField } from "../../widgets/number-field.tsx";
import type { LanderFieldsProps } from "./lander-fields.ts";
import { nameIn } from "../../../app/words/named.ts";

export const UseFields = ({ lander, propellants, isReadOnly, put }: LanderFieldsProps) => {
  const nameOf = (propellantId: string): string => nameIn(propellants, propellantId);
  return (
    <>
      <FormSection title="Fuel-cell use per kWh">
        {lander.tanks.map(({ propellantId }) => (
          <NumberField
            key={propellantId}
            label={nameOf(propellantId)}
            unit="kg"
            min={0}
            max={100}
            step={0.001}
            value={lander.fuelCells.find((line) => line.propellantId === propellantId)?.kgPerKwh ?? 0}
            isReadOnly={isReadOnly}
            onCommit={(kgPerKwh) => {
              const others = lander.fuelCells.filter((line) => line.propellantId !== propellantId);
              put({ fuelCells: kgPerKwh > 0 ? [...others, { propellantId, kgPerKwh }] : others }, "fuel cells");
            }}
          />
        ))}
      </FormSection>
      <FormSection title="Use per person and day">
        {lander.tanks.map(({ propellantId }) => (
          <NumberField
            key={propellantId}
            label={nameOf(propellantId)}
            unit="kg"
            min={0}
            max={100}
            step={0.01}
            value={lander.crew.find((line) => line.propellantId === propellantId)?.kgPerPersonDay ?? 0}
            isReadOnly={isReadOnly}
            onCommit={(kgPerPersonDay) => {
              const others = lander.crew.filter((line) => line.propellantId !== propellantId);
              put(
                { crew: kgPerPersonDay > 0 ? [...others, { propellantId, kgPerPersonDay }] : others },
                "what crew takes",
              );
            }}
          />
        ))}
      </FormSection>
    </>
  );
};
