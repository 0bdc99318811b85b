/** The tanks of a lander: volume, ullage, residual and loss aboard. */
import type { LanderTank } from "../../../app/entity/lander.ts";
import { kFromPercent, percentFromK } from "../../../app/storage/rate-units.ts";
import { formatMass } from "../../format/mass.ts";
import { Button } from "../../widgets/button.tsx";
import { FormSection } from "../../widgets/form-row.tsx";
import { MenuButton } from "../../widgets/menu-button.tsx";
import { NumberField } from "../../widgets/number-field.tsx";
import { type PartFieldsProps, partTitle } from "./lander-fields.ts";

const fresh = (propellantId: string): LanderTank => ({
  propellantId,
  volumeM3: 1,
  ullagePercent: 5,
  residualKg: 0,
  kPerDay: 0,
  cKgPerDay: 0,
});

interface TankFieldsProps extends PartFieldsProps {
  readonly tanks: readonly LanderTank[];
  /** As many must stay. */
  readonly least: number;
}

export const TankFields = ({ titled, tanks, least, propellants, isReadOnly, put }: TankFieldsProps) => {
  const free = propellants.filter(({ id }) => tanks.every(({ propellantId }) => propellantId !== id));
  const change = (tank: LanderTank, patch: Partial<LanderTank>): void =>
    put({ tanks: tanks.map((other) => (other === tank ? { ...tank, ...patch } : other)) }, "tanks");
  return (
    <>
      {tanks.map((tank) => {
        const propellant = propellants.find(({ id }) => id === tank.propellantId);
        const name = propellant?.name ?? tank.propellantId;
        const holds = (propellant?.densityKgPerM3 ?? 0) * tank.volumeM3 * (1 - tank.ullagePercent / 100);
        return (
          <FormSection
            key={tank.propellantId}
            title={partTitle(titled, `${name} tank`)}
            aside={
              !isReadOnly &&
              tanks.length > least && (
                <Button look="quiet" onPress={() => put({ tanks: tanks.filter((other) => other !== tank) }, "tanks")}>
                  Remove
                </Button>
              )
            }
          >
            <NumberField
              label="Volume"
              unit="m³"
              min={0}
              isMinOpen
              max={1e5}
              value={tank.volumeM3}
              isReadOnly={isReadOnly}
              origin={`holds ${formatMass(holds)}`}
              onCommit={(volumeM3) => change(tank, { volumeM3 })}
            />
            <NumberField
              label="Ullage"
              unit="%"
              min={0}
              max={90}
              value={tank.ullagePercent}
              isReadOnly={isReadOnly}
              onCommit={(ullagePercent) => change(tank, { ullagePercent })}
            />
            <NumberField
              label="Residual"
              unit="kg"
              min={0}
              max={1e9}
              value={tank.residualKg}
              isReadOnly={isReadOnly}
              origin="cannot be drawn"
              onCommit={(residualKg) => change(tank, { residualKg })}
            />
            <NumberField
              label="Proportional loss aboard"
              unit="%/day"
              min={0}
              max={99}
              step={0.1}
              value={Number(percentFromK(tank.kPerDay, 1).toPrecision(8))}
              isReadOnly={isReadOnly}
              onCommit={(share) => change(tank, { kPerDay: kFromPercent(share, 1) })}
            />
            <NumberField
              label="Constant loss aboard"
              unit="kg/day"
              min={0}
              max={1e7}
              value={tank.cKgPerDay}
              isReadOnly={isReadOnly}
              onCommit={(cKgPerDay) => change(tank, { cKgPerDay })}
            />
          </FormSection>
        );
      })}
      {!isReadOnly && free.length > 0 && (
        <MenuButton
          label={titled === null ? "Add a tank" : `Add a tank to ${titled}`}
          choices={free.map(({ id, name }) => ({
            id,
            label: name,
            run: () => put({ tanks: [...tanks, fresh(id)] }, "tanks"),
          }))}
        />
      )}
    </>
  );
};
