/** When a plant works: periods in order of time. */
import type { WaterPlant } from "../../../app/entity/water-plant.ts";
import { DAY_MS } from "../../../app/ground/quantity.ts";
import { formatDate } from "../../format/instant.ts";
import { Button } from "../../widgets/button.tsx";
import { FormSection } from "../../widgets/form-row.tsx";
import { InstantField } from "../../widgets/instant-field.tsx";
import type { Part } from "../part.ts";

type Duty = WaterPlant["duty"];

/** Where the next period begins: a month after the last, or at the as-of instant. */
const nextPeriod = (duty: Duty, asOfAt: number): Duty[number] => {
  const last = duty.at(-1);
  const fromAt = last === undefined ? Math.ceil(asOfAt / DAY_MS) * DAY_MS : last.untilAt + 30 * DAY_MS;
  return { fromAt, untilAt: fromAt + 90 * DAY_MS };
};

export const DutyFields = ({ part, asOfAt }: { part: Part<Duty>; asOfAt: number }) => {
  const { value: duty, isReadOnly, commit } = part;
  const put = (place: number, change: Partial<Duty[number]>): void =>
    commit(duty.with(place, { ...(duty[place] as Duty[number]), ...change }), "duty");
  return (
    <FormSection
      title="Operating"
      aside={
        !isReadOnly &&
        duty.length < 120 && (
          <Button look="quiet" onPress={() => commit([...duty, nextPeriod(duty, asOfAt)], "duty")}>
            Add a period
          </Button>
        )
      }
    >
      {duty.length === 0 && <p className="form-advice">Never: it makes nothing until it has a period of duty.</p>}
      {duty.map((period, place) => (
        <div className="heat-part" key={`${String(place)} ${String(period.fromAt)} ${String(period.untilAt)}`}>
          <InstantField
            label="From"
            value={period.fromAt}
            isReadOnly={isReadOnly}
            latestAt={period.untilAt - 1}
            {...(duty[place - 1] === undefined ? {} : { earliestAt: (duty[place - 1] as Duty[number]).untilAt })}
            onCommit={(fromAt) => put(place, { fromAt })}
          />
          <InstantField
            label="Until"
            value={period.untilAt}
            isReadOnly={isReadOnly}
            earliestAt={period.fromAt + 1}
            {...(duty[place + 1] === undefined ? {} : { latestAt: (duty[place + 1] as Duty[number]).fromAt })}
            onCommit={(untilAt) => put(place, { untilAt })}
          />
          {!isReadOnly && (
            <Button
              look="quiet"
              onPress={() => commit(duty.toSpliced(place, 1), "duty")}
              aria-label={`Remove the duty from ${formatDate(period.fromAt)}`}
            >
              Remove
            </Button>
          )}
        </div>
      ))}
    </FormSection>
  );
};
