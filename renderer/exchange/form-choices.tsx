/** How figures and dates of a file are written, and what parts its cells: as guessed, to be corrected. */
import type { ColumnMapping, Separator } from "../../app/ledger/column-mapping.ts";
import type { DateForm } from "../../app/format/read-date.ts";
import type { DecimalSign } from "../../app/format/read-number.ts";
import type { Decided, RowsPreview } from "../../app/exchange/rows/rows-preview.ts";
import { type Choice, ChoiceField } from "../widgets/choice-field.tsx";

const dates: readonly Choice<DateForm>[] = [
  { id: "year first", name: "year, month, day", note: "2031-02-20" },
  { id: "day first", name: "day, month, year", note: "20.02.2031" },
  { id: "month first", name: "month, day, year", note: "02/20/2031" },
  { id: "serial", name: "days since 1900", note: "47899" },
];
const decimals: readonly Choice<DecimalSign>[] = [
  { id: "point", name: "decimal point", note: "1,234.5" },
  { id: "comma", name: "decimal comma", note: "1.234,5" },
];
const separators: readonly Choice<Separator>[] = [
  { id: "comma", name: "commas" },
  { id: "semicolon", name: "semicolons" },
  { id: "tab", name: "tabs" },
  { id: "bar", name: "bars" },
];

const originOf = (decision: Decided<unknown>["decision"]): string | null =>
  decision === "chosen" || decision === "undecided" ? null : decision;

interface FormChoicesProps {
  readonly preview: RowsPreview;
  readonly onChoose: (form: Partial<Omit<ColumnMapping, "columns">>) => void;
}

export const FormChoices = ({ preview, onChoose }: FormChoicesProps) => (
  <div className="form-choices">
    {(preview.format === "text" || preview.dates.isAsked) && (
      <ChoiceField
        label="Dates"
        value={preview.dates.value}
        choices={dates}
        origin={originOf(preview.dates.decision)}
        onCommit={(value) => onChoose({ dates: value })}
      />
    )}
    {preview.format === "text" && (
      <>
        <ChoiceField
          label="Figures"
          value={preview.decimals.value}
          choices={decimals}
          origin={originOf(preview.decimals.decision)}
          onCommit={(value) => onChoose({ decimals: value })}
        />
        <ChoiceField
          label="Separator"
          value={preview.separator}
          choices={separators}
          onCommit={(value) => onChoose({ separator: value })}
        />
      </>
    )}
  </div>
);
