/** A month to choose a day from; the time of day is kept. */
import { CalendarDate } from "@internationalized/date";
import {
  Button as AriaButton,
  Calendar,
  CalendarCell,
  CalendarGrid,
  CalendarGridBody,
  CalendarGridHeader,
  CalendarHeaderCell,
  CalendarHeading,
  Dialog,
  DialogTrigger,
  I18nProvider,
  Popover,
} from "react-aria-components";
import { DAY_MS } from "../../app/ground/quantity.ts";
import "./calendar.css";

interface CalendarButtonProps {
  readonly label: string;
  readonly value: number | null;
  readonly onChoose: (at: number) => void;
}

const dayOf = (at: number): CalendarDate => {
  const date = new Date(at);
  return new CalendarDate(date.getUTCFullYear(), date.getUTCMonth() + 1, date.getUTCDate());
};

export const CalendarButton = ({ label, value, onChoose }: CalendarButtonProps) => (
  <DialogTrigger>
    <AriaButton slot={null} className="calendar-button" aria-label={`Calendar for ${label}`}>
      <svg viewBox="0 0 16 16" aria-hidden="true">
        <path d="M2 3.5h12v10H2zM2 6.5h12M5 1.5v3M11 1.5v3" />
      </svg>
    </AriaButton>
    <Popover className="popover" placement="bottom end">
      <Dialog aria-label={label} className="calendar-dialog">
        {({ close }) => (
          // Monday first and ISO order, whatever the machine speaks.
          <I18nProvider locale="en-GB">
            <Calendar
              autoFocus
              className="calendar"
              {...(value === null ? {} : { defaultValue: dayOf(value) })}
              onChange={(day) => {
                const ofDay = value === null ? 0 : value - Math.floor(value / DAY_MS) * DAY_MS;
                onChoose(Date.UTC(day.year, day.month - 1, day.day) + ofDay);
                close();
              }}
            >
              <header>
                <AriaButton slot="previous" className="calendar-step">
                  ‹
                </AriaButton>
                <CalendarHeading />
                <AriaButton slot="next" className="calendar-step">
                  ›
                </AriaButton>
              </header>
              <CalendarGrid weekdayStyle="short">
                <CalendarGridHeader>{(day) => <CalendarHeaderCell>{day}</CalendarHeaderCell>}</CalendarGridHeader>
                <CalendarGridBody>{(date) => <CalendarCell date={date} className="calendar-day" />}</CalendarGridBody>
              </CalendarGrid>
            </Calendar>
          </I18nProvider>
        )}
      </Dialog>
    </Popover>
  </DialogTrigger>
);
