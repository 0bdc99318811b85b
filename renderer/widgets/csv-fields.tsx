/** How a table is written as CSV: strictly, or as a spreadsheet program likes it. */
import { type CsvForm, strictCsv } from "../../app/format/csv-form.ts";
import { CheckField } from "./check-field.tsx";
import { ChoiceField } from "./choice-field.tsx";

/** What this system writes between a whole number and its decimals. */
const localeSign = (): string =>
  new Intl.NumberFormat(navigator.language).formatToParts(1.5).find(({ type }) => type === "decimal")?.value ?? ".";

const ofThisSystem = (own: string): string => (localeSign() === own ? ", as this system writes figures" : "");

/** The two kinds of dates, by example. */
const dates = [
  { id: "exact", name: "ISO 8601", note: "2031-02-20T14:05:00.000Z" },
  { id: "spreadsheet", name: "for a spreadsheet", note: "2031-02-20 14:05:00, UTC" },
] as const;

interface CsvFieldsProps {
  readonly value: CsvForm;
  readonly onCommit: (next: CsvForm) => void;
}

export const CsvFields = ({ value, onCommit }: CsvFieldsProps) => (
  <>
    <ChoiceField
      label="Separator"
      value={value.separator}
      choices={[
        { id: "comma", name: "comma; 1234.5", note: `decimal point${ofThisSystem(".")}` },
        { id: "semicolon", name: "semicolon; 1234,5", note: `decimal comma${ofThisSystem(",")}` },
        { id: "tab", name: "tab; 1234.5", note: "decimal point" },
      ]}
      onCommit={(separator) => onCommit({ ...value, separator })}
    />
    <ChoiceField
      label="Dates"
      value={value.dates}
      choices={dates}
      onCommit={(form) => onCommit({ ...value, dates: form })}
    />
    <CheckField isOn={value.hasMark} onCommit={(hasMark) => onCommit({ ...value, hasMark })}>
      Byte-order mark at the beginning
    </CheckField>
  </>
);

/** A stored form, if it still is one. */
export const csvFormOf = (stored: unknown): CsvForm => {
  const { hasMark, dates: form, separator } = (stored ?? {}) as Partial<CsvForm>;
  return {
    hasMark: hasMark === true,
    dates: form === "spreadsheet" ? "spreadsheet" : strictCsv.dates,
    separator: separator === "semicolon" || separator === "tab" ? separator : strictCsv.separator,
  };
};
