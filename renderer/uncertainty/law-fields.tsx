/** The numbers of a law. */
import { missingCase } from "../../app/ground/missing-case.ts";
import type { Uncertainty } from "../../app/entity/risk-input.ts";
import { NumberField, type NumberFieldProps } from "../widgets/number-field.tsx";
import { TextField } from "../widgets/text-field.tsx";
import type { Law } from "./fresh-law.ts";

interface LawFieldsProps {
  readonly uncertainty: Uncertainty;
  readonly isReadOnly: boolean;
  /** What is wrong with the law ("") or with one of its numbers, in words; null: nothing. */
  readonly faultOf: (property: string) => string | null;
  readonly onCommit: (next: Uncertainty) => void;
}

type Field = Pick<NumberFieldProps, "label" | "unit" | "min" | "max"> &
  Partial<NumberFieldProps> & { readonly property: string; readonly scale?: number };

const noneShare: Field = { property: "noneShare", label: "No slip at all", unit: "%", min: 0, max: 100, scale: 100 };
const span = (property: string, label: string): Field => ({
  property,
  label,
  unit: "days",
  min: 0,
  max: 36_525,
  isMinOpen: true,
});
const days = (property: string, label: string): Field => ({ property, label, unit: "days", min: 0, max: 36_525 });

const fieldsOf = (law: Law): readonly Field[] => {
  switch (law.kind) {
    case "by lead time":
      return [
        noneShare,
        { property: "perDay", label: "Mean per day of lead", unit: "days", min: 0, max: 10, isMinOpen: true },
      ];
    case "exponential":
      return [noneShare, span("meanDays", "Mean")];
    case "log-normal":
      return [
        noneShare,
        span("meanDays", "Mean"),
        { property: "sigma", label: "σ of the logarithm", unit: "", min: 0, max: 5 },
      ];
    case "triangular":
      return [noneShare, days("lowDays", "Least"), days("modeDays", "Likeliest"), days("highDays", "Greatest")];
    case "quantiles":
      return [noneShare];
    case "probability":
      return [{ property: "probability", label: "Lost with probability", unit: "%", min: 0, max: 100, scale: 100 }];
    case "trials":
      return [
        { property: "successes", label: "Successes", unit: "", min: 0, max: 100_000, isWhole: true },
        { property: "trials", label: "of trials", unit: "", min: 0, max: 100_000, isWhole: true },
      ];
    case "log-normal factor":
      return [{ property: "sigma", label: "σ of the logarithm", unit: "", min: 0, max: 2, isMinOpen: true }];
    case "failures":
      return [
        span("meanBetweenDays", "Mean between failures"),
        span("meanRepairDays", "Mean repair"),
        { property: "kPerDay", label: "Proportional loss while down", unit: "/day", min: 0, max: 10 },
        { property: "cKgPerDay", label: "Constant loss while down", unit: "kg/day", min: 0, max: 1e7 },
      ];
    case "share of maximum fill":
      return [
        { property: "sigma", label: "Standard uncertainty", unit: "%", min: 0, max: 100, isMinOpen: true, scale: 100 },
      ];
    case "mass":
      return [{ property: "sigmaKg", label: "Standard uncertainty", unit: "kg", min: 0, max: 1e9, isMinOpen: true }];
    case "none":
    case "observed":
      return [];
    default:
      return missingCase(law);
  }
};

/** "0 0 12.5, 40" → [0, 0, 12.5, 40]; null: some of it is no number of days. */
export const readDays = (text: string): number[] | null => {
  const parts = text.split(/[\s,;]+/).filter((part) => part !== "");
  const read = parts.map(Number);
  return read.every((value) => Number.isFinite(value) && value >= 0 && value <= 36_525) ? read : null;
};

/** Off the noise of scaling by 100. */
const clean = (value: number): number => Number(value.toPrecision(12));

const readsDays = (text: string): string | null =>
  readDays(text) === null ? "Days from 0 to 36,525, with commas or spaces between them: 0, 0, 4, 31." : null;

export const LawFields = ({ uncertainty, isReadOnly, faultOf, onCommit }: LawFieldsProps) => {
  const { law } = uncertainty;
  const isList = law.kind === "observed" || law.kind === "quantiles";
  const fields = fieldsOf(law);
  const isPlaced = [...fields.map(({ property }) => property), ...(isList ? ["days"] : [])].some(
    (property) => faultOf(property) !== null,
  );
  // What is wrong with no field of the form stands at its first.
  const rest = isPlaced ? null : faultOf("");
  const put = (patch: object): void => onCommit({ ...uncertainty, law: { ...law, ...patch } } as Uncertainty);
  const values = law as unknown as Readonly<Record<string, number>>;
  return (
    <>
      {fields.map(({ property, scale = 1, ...field }, index) => (
        <NumberField
          key={property}
          {...field}
          value={clean((values[property] ?? 0) * scale)}
          isReadOnly={isReadOnly}
          fault={faultOf(property) ?? (index === 0 ? rest : null)}
          onCommit={(value) => put({ [property]: clean(value / scale) })}
        />
      ))}
      {isList && (
        <TextField
          label={law.kind === "observed" ? "Slips, days" : "Quantiles, days"}
          value={law.days.join(", ")}
          most={8000}
          isRequired
          isReadOnly={isReadOnly}
          placeholder="numbers with commas between"
          origin={
            law.kind === "observed"
              ? "one for each flight; 0 for one on time"
              : "at equal steps, from the least to the greatest"
          }
          fault={faultOf("days") ?? (fields.length === 0 ? rest : null)}
          check={readsDays}
          onCommit={(text) => put({ days: readDays(text) ?? [] })}
        />
      )}
    </>
  );
};
