/** An instant in UTC: typed as an ISO date, or date and time; arrows move it by a day; a calendar for those who look. */
import { Input, Label, TextField as AriaTextField } from "react-aria-components";
import { readInstant } from "../../app/format/time.ts";
import { formatInstant, formatWithWeekday } from "../format/instant.ts";
import { CalendarButton } from "./calendar.tsx";
import { draftKeys, useDraft } from "./draft.ts";
import { FieldLine, type FieldWords } from "./form-row.tsx";
import { DAY_MS } from "../../app/ground/quantity.ts";

export interface InstantFieldProps extends FieldWords {
  readonly value: number | null;
  readonly onCommit: (at: number) => void;
  /** Given: the field may be empty; called when it is emptied. */
  readonly onClear?: () => void;
  /** What an empty field means: "from the first day on". */
  readonly emptyWords?: string;
  readonly earliestAt?: number;
  readonly latestAt?: number;
  readonly isReadOnly?: boolean;
  readonly autoFocus?: boolean;
}

const EXAMPLE = "Write 2031-02-20 or 2031-02-20 14:05 (UTC).";

const rangeHint = (earliestAt: number | undefined, latestAt: number | undefined): string => {
  if (earliestAt !== undefined && latestAt !== undefined)
    return `${formatInstant(earliestAt)} to ${formatInstant(latestAt)}`;
  if (earliestAt !== undefined) return `not before ${formatInstant(earliestAt)}`;
  if (latestAt !== undefined) return `not after ${formatInstant(latestAt)}`;
  return "UTC; 2031-02-20 or 2031-02-20 14:05";
};

/** What is wrong with a typed instant; null: nothing. */
export const instantFault = (
  text: string,
  bounds: Pick<InstantFieldProps, "earliestAt" | "latestAt">,
): string | null => {
  const at = readInstant(text.trim());
  if (at === null) return `“${text.trim().slice(0, 24)}” is not a date. ${EXAMPLE}`;
  if (bounds.earliestAt !== undefined && at < bounds.earliestAt)
    return `Too early: not before ${formatInstant(bounds.earliestAt)}.`;
  if (bounds.latestAt !== undefined && at > bounds.latestAt)
    return `Too late: not after ${formatInstant(bounds.latestAt)}.`;
  return null;
};

/** Years in which nobody plans: a slip of the pen is likelier. */
const FIRST_YEAR = 1957;
const LAST_YEAR = 2200;

/** A question where a date lies in a year that is hardly meant; null: it does not. */
export const instantDoubt = (at: number | null): string | null => {
  if (at === null) return null;
  const year = new Date(at).getUTCFullYear();
  return year < FIRST_YEAR || year > LAST_YEAR ? `Is the year ${String(year)} meant?` : null;
};

export const InstantField = (props: InstantFieldProps) => {
  const { value, onCommit, onClear, emptyWords, isReadOnly = false } = props;
  const shown = value === null ? "" : formatInstant(value);
  const isEmptyAllowed = onClear !== undefined;
  const check = (text: string): string | null =>
    isEmptyAllowed && text.trim() === "" ? null : instantFault(text, props);
  const draft = useDraft(shown, check, (text) => {
    const at = readInstant(text.trim());
    if (at === null) onClear?.();
    else onCommit(at);
  });
  const step = (by: number): void => {
    const at = readInstant(draft.text.trim());
    if (at !== null) draft.type(formatInstant(at + by * DAY_MS));
  };
  const fault = draft.fault ?? props.fault ?? null;
  const typedAt = readInstant(draft.text.trim());
  return (
    <AriaTextField
      className="form-row"
      value={draft.text}
      onChange={draft.type}
      onBlur={draft.commit}
      isInvalid={fault !== null}
      isReadOnly={isReadOnly}
      validationBehavior="aria"
      {...(props.autoFocus === undefined ? {} : { autoFocus: props.autoFocus })}
    >
      <Label className="field-label">{props.label}</Label>
      <div className="field-control" title={typedAt === null ? undefined : formatWithWeekday(typedAt)}>
        <Input
          className="field-input field-number"
          autoComplete="off"
          spellCheck={false}
          placeholder={emptyWords ?? "year-month-day"}
          onKeyDown={draftKeys(draft, step)}
        />
        {isReadOnly ? (
          <span className="field-unit">UTC</span>
        ) : (
          <CalendarButton label={props.label} value={typedAt} onChoose={onCommit} />
        )}
      </div>
      <FieldLine
        fault={fault}
        caution={instantDoubt(typedAt) ?? props.caution ?? null}
        hint={rangeHint(props.earliestAt, props.latestAt)}
        origin={props.origin ?? null}
      />
    </AriaTextField>
  );
};
