/** What a calendar leaves open: the zone of times that bear none, and when events of whole days begin and end. */
import { type CalendarForms, MIDNIGHTS } from "../../app/exchange/calendar/calendar-forms.ts";
import type { CalendarPreview } from "../../app/exchange/rows/rows-preview.ts";
import { type Choice, ChoiceField } from "../widgets/choice-field.tsx";

const HOURS = 24;

const wholeDays: readonly Choice<string>[] = [
  { id: MIDNIGHTS, name: "00:00 of the first day to 24:00 of the last" },
  ...Array.from({ length: HOURS }, (_unused, hour) => {
    const clock = `${String(hour).padStart(2, "0")}:00`;
    return { id: clock, name: `${clock} of the first day to ${clock} of the last` };
  }),
];

/** UTC and the zone of this machine first. */
const zones = (): readonly Choice<string>[] => {
  const own = Intl.DateTimeFormat().resolvedOptions().timeZone;
  const first = [...new Set(["UTC", own])];
  const others = Intl.supportedValuesOf("timeZone").filter((zone) => !first.includes(zone));
  return [
    ...first.map((id) => ({ id, name: id, ...(id === own && id !== "UTC" ? { note: "of this computer" } : {}) })),
    ...others.map((id) => ({ id, name: id })),
  ];
};

interface CalendarChoicesProps {
  readonly calendar: CalendarPreview;
  readonly onChoose: (forms: Partial<CalendarForms>) => void;
}

export const CalendarChoices = ({ calendar, onChoose }: CalendarChoicesProps) =>
  calendar.floating === 0 && calendar.dated === 0 ? null : (
    <div className="form-choices">
      {calendar.floating > 0 && (
        <ChoiceField
          label="Times without a zone are in"
          value={calendar.zone}
          emptyWords="time zone?"
          choices={zones()}
          onCommit={(zone) => onChoose({ zone })}
        />
      )}
      {calendar.dated > 0 && (
        <ChoiceField
          label="Whole days last from (UTC)"
          value={calendar.wholeDays}
          emptyWords="time of day?"
          choices={wholeDays}
          onCommit={(time) => onChoose({ wholeDays: time })}
        />
      )}
    </div>
  );
