/** Tanks that come with a step (drop tanks, cache tanks): a volume for each propellant, and what else is to be said of it. */
import type { PlanSnapshot } from "../../../../app/entity/plan.ts";
import type { Lander } from "../../../../app/entity/lander.ts";
import { Button } from "../../../widgets/button.tsx";
import { FormSection } from "../../../widgets/form-row.tsx";
import { MenuButton } from "../../../widgets/menu-button.tsx";
import { NumberField } from "../../../widgets/number-field.tsx";
import { nameIn } from "../../../../app/words/named.ts";

interface Volume {
  readonly propellantId: string;
  readonly volumeM3: number;
}

interface TankVolumesProps<T extends Volume> {
  readonly title: string;
  readonly tanks: readonly T[];
  readonly fresh: (propellantId: string) => T;
  readonly lander: Lander;
  readonly propellants: PlanSnapshot["propellants"];
  readonly isReadOnly: boolean;
  readonly onChange: (tanks: T[]) => void;
  /** One more number of each tank. */
  readonly more: {
    readonly label: string;
    readonly unit: string;
    readonly max: number;
    readonly value: (tank: T) => number;
    readonly put: (tank: T, value: number) => T;
  };
}

export const TankVolumes = <T extends Volume>(props: TankVolumesProps<T>) => {
  const { tanks, lander, propellants, isReadOnly, onChange } = props;
  const nameOf = (id: string): string => nameIn(propellants, id);
  const free = lander.tanks.filter(({ propellantId }) => tanks.every((tank) => tank.propellantId !== propellantId));
  return (
    <FormSection
      title={props.title}
      aside={
        !isReadOnly &&
        free.length > 0 && (
          <MenuButton
            label="Add"
            look="quiet"
            choices={free.map(({ propellantId }) => ({
              id: propellantId,
              label: nameOf(propellantId),
              run: () => onChange([...tanks, props.fresh(propellantId)]),
            }))}
          />
        )
      }
    >
      {tanks.map((tank) => {
        const change = (next: T): void =>
          onChange(tanks.map((other) => (other.propellantId === tank.propellantId ? next : other)));
        return (
          <div key={tank.propellantId} className="tank-volume">
            <NumberField
              label={`${nameOf(tank.propellantId)} volume`}
              unit="m³"
              min={0}
              isMinOpen
              max={1e5}
              value={tank.volumeM3}
              isReadOnly={isReadOnly}
              onCommit={(volumeM3) => change({ ...tank, volumeM3 })}
            />
            <NumberField
              label={props.more.label}
              unit={props.more.unit}
              min={0}
              max={props.more.max}
              value={props.more.value(tank)}
              isReadOnly={isReadOnly}
              onCommit={(value) => change(props.more.put(tank, value))}
            />
            {!isReadOnly && tanks.length > 1 && (
              <Button
                look="quiet"
                onPress={() => onChange(tanks.filter((other) => other.propellantId !== tank.propellantId))}
              >
                Without {nameOf(tank.propellantId).toLowerCase()}
              </Button>
            )}
          </div>
        );
      })}
    </FormSection>
  );
};
