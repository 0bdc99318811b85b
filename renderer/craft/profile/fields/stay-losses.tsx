/** Losses aboard that differ from the lander's for one stay: an attitude that is hotter, a cooler that is off. */
import type { PlanSnapshot } from "../../../../app/entity/plan.ts";
import type { Lander } from "../../../../app/entity/lander.ts";
import type { ProfileStep } from "../../../../app/entity/profile.ts";
import { kFromPercent, percentFromK } from "../../../../app/storage/rate-units.ts";
import { formatNumber, withUnit } from "../../../format/number.ts";
import { stagesOf } from "../../../../app/sortie/stage.ts";
import { Button } from "../../../widgets/button.tsx";
import { FormSection } from "../../../widgets/form-row.tsx";
import { MenuButton } from "../../../widgets/menu-button.tsx";
import { NumberField } from "../../../widgets/number-field.tsx";
import { nameIn } from "../../../../app/words/named.ts";

type Losses = Extract<ProfileStep, { kind: "stay" }>["losses"];

interface StayLossesProps {
  readonly losses: Losses;
  readonly lander: Lander;
  readonly propellants: PlanSnapshot["propellants"];
  readonly isReadOnly: boolean;
  readonly onChange: (losses: Losses) => void;
}

const percent = (kPerDay: number): number => Number(percentFromK(kPerDay, 1).toPrecision(8));

export const StayLosses = ({ losses, lander, propellants, isReadOnly, onChange }: StayLossesProps) => {
  const nameOf = (id: string): string => nameIn(propellants, id);
  const tanks = stagesOf(lander).flatMap(({ name, tanks: own }) =>
    own.map((tank) => ({ ...tank, stage: name ?? undefined })),
  );
  const isOf = (loss: Losses[number], tank: { propellantId: string; stage?: string | undefined }): boolean =>
    loss.propellantId === tank.propellantId && loss.stage === tank.stage;
  const free = tanks.filter((tank) => losses.every((loss) => !isOf(loss, tank)));
  const tankName = ({ stage, propellantId }: { stage?: string | undefined; propellantId: string }): string =>
    stage === undefined ? nameOf(propellantId) : `${nameOf(propellantId)} of ${stage}`;
  return (
    <FormSection
      title={losses.length === 0 ? "Losses aboard as usual" : "Losses aboard that differ"}
      aside={
        !isReadOnly &&
        free.length > 0 && (
          <MenuButton
            label="Add a propellant"
            look="quiet"
            choices={free.map((tank) => ({
              id: tankName(tank),
              label: tankName(tank),
              run: () => {
                const { stage, propellantId, kPerDay, cKgPerDay } = tank;
                onChange([...losses, { ...(stage !== undefined && { stage }), propellantId, kPerDay, cKgPerDay }]);
              },
            }))}
          />
        )
      }
    >
      {losses.map((loss) => {
        const name = tankName(loss);
        const usual = tanks.find((tank) => isOf(loss, tank));
        const change = (patch: Partial<Losses[number]>): void =>
          onChange(losses.map((other) => (other === loss ? { ...loss, ...patch } : other)));
        return (
          <div key={name} className="tank-volume">
            <NumberField
              label={`${name} loses`}
              unit="%/day"
              min={0}
              max={99}
              step={0.1}
              value={percent(loss.kPerDay)}
              isReadOnly={isReadOnly}
              origin={`else ${withUnit(formatNumber(percent(usual?.kPerDay ?? 0), 3), "%/day")}, of what is there`}
              onCommit={(share) => change({ kPerDay: kFromPercent(share, 1) })}
            />
            <NumberField
              label="plus constant"
              unit="kg/day"
              min={0}
              max={1e7}
              value={loss.cKgPerDay}
              isReadOnly={isReadOnly}
              origin={`else ${withUnit(formatNumber(usual?.cKgPerDay ?? 0, 1), "kg/day")}`}
              onCommit={(cKgPerDay) => change({ cKgPerDay })}
            />
            {!isReadOnly && (
              <Button look="quiet" onPress={() => onChange(losses.filter((other) => other !== loss))}>
                {name} as usual
              </Button>
            )}
          </div>
        );
      })}
    </FormSection>
  );
};
