/** What a class of craft does with one propellant. */
import type { CraftClass, CraftPropellant } from "../../app/entity/craft.ts";
import type { Propellant } from "../../app/entity/propellant.ts";
import { Button } from "../widgets/button.tsx";
import { FormSection } from "../widgets/form-row.tsx";
import { NumberField } from "../widgets/number-field.tsx";
import { RateFields } from "./rate-fields.tsx";
import { TankWallFields } from "./tank-wall-fields.tsx";

interface CraftPropellantFieldsProps {
  readonly line: CraftPropellant;
  readonly role: CraftClass["role"];
  readonly propellant: Propellant | undefined;
  readonly isReadOnly: boolean;
  readonly fault: string | null;
  readonly onCommit: (patch: Partial<CraftPropellant>, words: string) => void;
  readonly onRemove: () => void;
}

type MassName = "capacityKg" | "loadKg" | "returnKg" | "residualKg" | "chilldownKg";

export const CraftPropellantFields = (props: CraftPropellantFieldsProps) => {
  const { line, role, propellant, isReadOnly, onCommit } = props;
  const name = propellant?.name ?? line.propellantId;
  const words = (what: string): string => `${name.toLowerCase()} ${what}`;
  const mass = (field: MassName, label: string, max: number, origin: string | null = null) => (
    <NumberField
      label={label}
      unit="kg"
      min={0}
      max={max}
      step={10}
      value={line[field]}
      isReadOnly={isReadOnly}
      origin={origin}
      onCommit={(value) => onCommit({ [field]: value }, words(label.toLowerCase()))}
    />
  );
  const isTanker = role === "tanker";
  return (
    <FormSection
      title={name}
      aside={
        !isReadOnly && (
          <Button look="quiet" onPress={props.onRemove} aria-label={`Remove ${name}`}>
            Remove
          </Button>
        )
      }
    >
      {props.fault !== null && (
        <p className="form-fault" role="alert">
          {props.fault}
        </p>
      )}
      {mass("capacityKg", "Its tank holds", 1e9)}
      {mass(
        "loadKg",
        isTanker ? "Loaded at departure" : "Needed for a sortie",
        line.capacityKg,
        "unless stated otherwise",
      )}
      {isTanker
        ? mass("residualKg", "Unusable residual", line.capacityKg)
        : mass("returnKg", "Aboard at return", line.loadKg, "unless the sortie says otherwise")}
      {mass("chilldownKg", "Lost to line chilldown", 1e6, "before each transfer")}
      {!isTanker && (
        <TankWallFields line={line} propellant={propellant} isReadOnly={isReadOnly} words={words} onCommit={onCommit} />
      )}
      <NumberField
        label="Transfer loss"
        unit="%"
        min={0}
        max={100}
        step={0.1}
        value={Number((line.lossFraction * 100).toPrecision(9))}
        isReadOnly={isReadOnly}
        onCommit={(percent) => onCommit({ lossFraction: percent / 100 }, words("handover loss"))}
      />
      <NumberField
        label="Transfer rate"
        unit="kg/day"
        min={1}
        max={1e7}
        step={100}
        value={line.rateKgPerDay}
        placeholder="all at once"
        isReadOnly={isReadOnly}
        onCommit={(rateKgPerDay) => onCommit({ rateKgPerDay }, words("transfer rate"))}
        onClear={() => onCommit({ rateKgPerDay: null }, words("transfer rate"))}
      />
      <RateFields
        kPerDay={line.kPerDay}
        cKgPerDay={line.cKgPerDay}
        levelKg={line.loadKg}
        isReadOnly={isReadOnly}
        fault={null}
        onCommit={(rate, what) => onCommit(rate, words(isTanker ? `${what} in transit` : `${what} docked`))}
      />
    </FormSection>
  );
};
