/** What a flight carries, propellant by propellant. */
import type { CraftClass } from "../../app/entity/craft.ts";
import type { Flight } from "../../app/entity/flight.ts";
import { formatMass } from "../format/mass.ts";
import { FormSection } from "../widgets/form-row.tsx";
import { NumberField } from "../widgets/number-field.tsx";
import type { Editing } from "../editing/editing.ts";

interface FlightLoadsProps {
  readonly edit: Editing<Flight>;
  readonly craftClass: CraftClass | undefined;
}

export const FlightLoads = ({ edit, craftClass }: FlightLoadsProps) => {
  const { value, plan } = edit;
  const ids = new Set([
    ...(craftClass?.propellants.map(({ propellantId }) => propellantId) ?? []),
    ...value.loads.map(({ propellantId }) => propellantId),
  ]);
  const propellants = plan.propellants.filter(({ id }) => ids.has(id));
  const put = (propellantId: string, loadedKg: number, name: string): void => {
    const others = value.loads.filter((load) => load.propellantId !== propellantId);
    const loads = loadedKg === 0 ? others : [...others, { propellantId, loadedKg }];
    edit.change({ loads }, `${name.toLowerCase()} loaded`);
  };
  return (
    <FormSection title="Loaded at departure">
      {propellants.length === 0 && <p className="form-advice">The tanker’s class carries no propellant yet.</p>}
      {propellants.map(({ id, name }) => {
        const line = craftClass?.propellants.find(({ propellantId }) => propellantId === id);
        const index = value.loads.findIndex(({ propellantId }) => propellantId === id);
        return (
          <NumberField
            key={id}
            label={name}
            unit="kg"
            min={0}
            max={line?.capacityKg ?? 1e9}
            step={100}
            value={value.loads[index]?.loadedKg ?? 0}
            isReadOnly={edit.isReadOnly}
            fault={index < 0 ? null : edit.faultOf("loads")}
            origin={line === undefined ? null : `${craftClass?.name ?? ""}: ${formatMass(line.loadKg)}`}
            onCommit={(loadedKg) => put(id, loadedKg, name)}
          />
        );
      })}
    </FormSection>
  );
};
