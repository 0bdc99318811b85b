/** Leaving a cache in orbit, and taking it up again. */
import type { ProfileStep } from "../../../../app/entity/profile.ts";
import { kFromPercent, percentFromK } from "../../../../app/storage/rate-units.ts";
import { CheckField } from "../../../widgets/check-field.tsx";
import { FormSection } from "../../../widgets/form-row.tsx";
import { NumberField } from "../../../widgets/number-field.tsx";
import { TextField } from "../../../widgets/text-field.tsx";
import type { StepFieldsProps } from "../step-fields.ts";
import { TankVolumes } from "./tank-volumes.tsx";
import { nameIn } from "../../../../app/words/named.ts";

type LeaveStep = Extract<ProfileStep, { kind: "leave cache" }>;
type TakeStep = Extract<ProfileStep, { kind: "take up cache" }>;

export const CacheFields = ({ step, lander, propellants, isReadOnly, onChange }: StepFieldsProps<LeaveStep>) => {
  const put = (patch: Partial<LeaveStep>): void => onChange({ ...step, ...patch });
  return (
    <>
      <TextField
        label="Cache"
        most={80}
        isRequired
        value={step.cache}
        isReadOnly={isReadOnly}
        onCommit={(cache) => put({ cache })}
      />
      <NumberField
        label="Cache dry mass"
        unit="kg"
        min={0}
        max={1e9}
        step={10}
        value={step.tankKg}
        isReadOnly={isReadOnly}
        origin="aboard from the start"
        onCommit={(tankKg) => put({ tankKg })}
      />
      <TankVolumes
        title="Caches the return load of"
        tanks={step.tanks}
        fresh={(propellantId) => ({ propellantId, volumeM3: 5, kPerDay: 0, cKgPerDay: 0 })}
        lander={lander}
        propellants={propellants}
        isReadOnly={isReadOnly}
        onChange={(tanks) => put({ tanks })}
        more={{
          label: "Loss while cached",
          unit: "%/day",
          max: 99,
          value: ({ kPerDay }) => Number(percentFromK(kPerDay, 1).toPrecision(8)),
          put: (tank, percent) => ({ ...tank, kPerDay: kFromPercent(percent, 1) }),
        }}
      />
    </>
  );
};

export const TakeUpFields = ({ step, lander, propellants, isReadOnly, onChange }: StepFieldsProps<TakeStep>) => {
  const put = (patch: Partial<TakeStep>): void => onChange({ ...step, ...patch });
  return (
    <>
      <CheckField isOn={step.keepsTank} isReadOnly={isReadOnly} onCommit={(keepsTank) => put({ keepsTank })}>
        Its tank comes home too
      </CheckField>
      <FormSection title="Must still be aboard on arrival, beyond the residual">
        {lander.tanks.map(({ propellantId }) => (
          <NumberField
            key={propellantId}
            label={nameIn(propellants, propellantId)}
            unit="kg"
            min={0}
            max={1e9}
            step={10}
            value={step.arriveWith.find((line) => line.propellantId === propellantId)?.massKg ?? 0}
            isReadOnly={isReadOnly}
            onCommit={(massKg) =>
              put({
                arriveWith: [
                  ...step.arriveWith.filter((line) => line.propellantId !== propellantId),
                  { propellantId, massKg },
                ],
              })
            }
          />
        ))}
      </FormSection>
    </>
  );
};
