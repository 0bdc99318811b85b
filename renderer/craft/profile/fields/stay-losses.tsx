/** Losses aboard that differ from the lander's for one stay: an attitude that is hotter, a cooler that is off. */
import type { PlanSnapshot } from "../../../../app/entity/plan.ts";
import type { Lander } from "../../../../app/entity/lander.ts";
import type { ProfileStep } from "../../../../app/entity/profile.ts";
import { kFromPercent, percentFromK } from "../../../../app/storage/rate-units.ts";
import { formatNumber, withUnit } from "../../../format/number.ts";
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
  const free = lander.tanks.filter(({ propellantId }) => losses.every((loss) => loss.propellantId !== propellantId));
  return (
    <FormSection
      title={losses.length === 0 ? "Losses aboard as usual" : "Losses aboard that differ"}
      aside={
        !isReadOnly &&
        free.length > 0 && (
          <MenuButton
            label="Add a propellant"
            look="quiet"
            choices={free.map(({ propellantId, kPerDay, cKgPerDay }) => ({
              id: propellantId,
              label: nameOf(propellantId),
              run: () => onChange([...losses, { propellantId, kPerDay, cKgPerDay }]),
            }))}
          />
        )
      }
    >
      {losses.map((loss) => {
        const name = nameOf(loss.propellantId);
        const usual = lander.tanks.find(({ propellantId }) => propellantId === loss.propellantId);
        const change = (patch: Partial<Losses[number]>): void =>
          onChange(losses.map((other) => (other === loss ? { ...loss, ...patch } : other)));
        return (
          <div key={loss.propellantId} className="tank-volume">
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
