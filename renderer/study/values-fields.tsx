/** By which values an input goes: a list, a range, or a distribution, with its numbers. */
import { missingCase } from "../../app/ground/missing-case.ts";
import type { InputOffer } from "../../app/study/offers.ts";
import type { ValuesAsked } from "../../app/study/question.ts";
import { readTyped } from "../../app/format/read-typed.ts";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { NumberField } from "../widgets/number-field.tsx";
import { TextField } from "../widgets/text-field.tsx";

interface ValuesFieldsProps {
  readonly offer: InputOffer;
  readonly values: ValuesAsked;
  readonly isGrid: boolean;
  readonly onChange: (values: ValuesAsked) => void;
}

const kinds = [
  { id: "range", name: "a range", note: "from … to …, at equal steps" },
  { id: "list", name: "a list", note: "these values and no others" },
  { id: "normal", name: "normal", note: "mean and standard deviation" },
  { id: "log-normal", name: "log-normal", note: "median and spread of the logarithm" },
  { id: "triangular", name: "triangular", note: "lowest, most likely, highest" },
] as const;

const COUNT = 9;

/** The same values in another form, as near as can be. */
const converted = (kind: ValuesAsked["kind"], values: ValuesAsked, offer: InputOffer): ValuesAsked => {
  const { least, most } = offer;
  const [low, high] =
    values.kind === "range"
      ? [values.from, values.to]
      : values.kind === "list"
        ? [Math.min(...values.list), Math.max(...values.list)]
        : values.kind === "triangular"
          ? [values.low, values.high]
          : values.kind === "normal"
            ? [Math.max(least, values.mean - 2 * values.sigma), Math.min(most, values.mean + 2 * values.sigma)]
            : [values.median / 2, values.median * 2];
  const middle = (low + high) / 2;
  switch (kind) {
    case "range":
      return { kind, from: low, to: high, count: COUNT };
    case "list":
      return { kind, list: [...new Set([low, middle, high])] };
    case "normal":
      return {
        kind,
        mean: middle,
        sigma: (high - low) / 4 || 1,
        least: Math.max(least, low),
        most: Math.min(most, high),
        count: COUNT,
      };
    case "log-normal":
      return { kind, median: middle > 0 ? middle : 1, sigma: 0.3, count: COUNT };
    case "triangular":
      return { kind, low, mode: middle, high, count: COUNT };
    default:
      return missingCase(kind);
  }
};

/** Separated by semicolons, or commas with a space after: a comma alone may be a decimal sign, a space part thousands. */
const readList = (text: string, unit: string): readonly number[] | string => {
  const parts = text
    .split(/;|,\s+/)
    .map((part) => part.trim())
    .filter((part) => part !== "");
  const list: number[] = [];
  for (const part of parts) {
    const read = readTyped(part, unit);
    if (!read.ok) return `${part}: ${read.fault}`;
    list.push(read.value);
  }
  return list.length === 0 ? "Write at least one value, like 0.5; 1; 2." : list;
};

const listFault = (text: string, unit: string): string | null => {
  const read = readList(text, unit);
  return typeof read === "string" ? read : null;
};

const MAX_COUNT = 1_000_000;

export const ValuesFields = ({ offer, values, isGrid, onChange }: ValuesFieldsProps) => {
  const { unit, least: min, most: max, isWhole } = offer;
  const number = (label: string, value: number, commit: (value: number) => void, limits = { min, max }) => (
    <NumberField key={label} label={label} unit={unit} {...limits} isWhole={isWhole} value={value} onCommit={commit} />
  );
  const spread = (label: string, value: number, commit: (value: number) => void, most: number, of: string) => (
    <NumberField key={label} label={label} unit={of} min={0} isMinOpen max={most} value={value} onCommit={commit} />
  );
  const fields = () => {
    switch (values.kind) {
      case "list":
        return (
          <TextField
            label={unit === "" ? "Values" : `Values, ${unit}`}
            value={values.list.join("; ")}
            most={4000}
            isRequired
            check={(text) => listFault(text, unit)}
            onCommit={(text) => {
              const list = readList(text, unit);
              if (typeof list !== "string") onChange({ kind: "list", list: [...list] });
            }}
          />
        );
      case "range":
        return [
          number("From", values.from, (from) => onChange({ ...values, from })),
          number("To", values.to, (to) => onChange({ ...values, to })),
        ];
      case "normal":
        return [
          number("Mean", values.mean, (mean) => onChange({ ...values, mean })),
          spread("Standard deviation", values.sigma, (sigma) => onChange({ ...values, sigma }), 1e12, unit),
          number("Not below", values.least ?? min, (least) => onChange({ ...values, least })),
          number("Not above", values.most ?? max, (most) => onChange({ ...values, most })),
        ];
      case "log-normal":
        return [
          number("Median", values.median, (median) => onChange({ ...values, median })),
          spread("Spread of the logarithm", values.sigma, (sigma) => onChange({ ...values, sigma }), 5, ""),
        ];
      case "triangular":
        return [
          number("Lowest", values.low, (low) => onChange({ ...values, low })),
          number("Most likely", values.mode, (mode) => onChange({ ...values, mode })),
          number("Highest", values.high, (high) => onChange({ ...values, high })),
        ];
      default:
        return missingCase(values);
    }
  };
  return (
    <>
      <ChoiceField
        label="By"
        value={values.kind}
        choices={kinds}
        onCommit={(kind) => onChange(converted(kind, values, offer))}
      />
      {fields()}
      {isGrid && values.kind !== "list" && (
        <NumberField
          label="Number of values"
          unit=""
          isWhole
          min={1}
          max={MAX_COUNT}
          value={values.count ?? COUNT}
          onCommit={(count) => onChange({ ...values, count })}
        />
      )}
    </>
  );
};
