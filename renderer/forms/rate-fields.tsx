/** A loss rate as planners state it: a share in a day or in a month, and a steady part in kg/day; both count together. */
import { useState } from "react";
import { COMPOUND_MEANING, RATE_MONTH_DAYS, kFromPercent, percentFromK } from "../../app/storage/rate-units.ts";
import { formatMass } from "../format/mass.ts";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { NumberField } from "../widgets/number-field.tsx";
import { figure } from "../widgets/number-text.ts";

interface RateFieldsProps {
  readonly kPerDay: number;
  readonly cKgPerDay: number;
  /** To say what the rate comes to, kg; null: not said. */
  readonly levelKg: number | null;
  readonly isReadOnly: boolean;
  readonly fault: string | null;
  readonly onCommit: (rate: { kPerDay: number; cKgPerDay: number }, words: string) => void;
}

const spans = [
  { id: "day", name: "in a day", days: 1 },
  { id: "month", name: `in ${RATE_MONTH_DAYS} days`, days: RATE_MONTH_DAYS },
] as const;
type SpanId = (typeof spans)[number]["id"];

/** 8 digits: what was typed comes back as it was typed. */
const tidy = (value: number): number => Number(value.toPrecision(8));

/** "1 % of what is there is gone after 1 day: k = −ln(1 − 0.01) = 0.010050 a day." */
export const compoundWords = (percent: number, days: number): string => {
  const k = kFromPercent(percent, days);
  const divided = days === 1 ? "" : `/${days}`;
  return (
    `${figure(percent)} % of what is there is gone after ${days === 1 ? "a day" : `${days} days`}: ` +
    `k = −ln(1 − ${Number((percent / 100).toPrecision(6))})${divided} = ${Number(k.toPrecision(5))} a day.`
  );
};

export const RateFields = ({ kPerDay, cKgPerDay, levelKg, isReadOnly, fault, onCommit }: RateFieldsProps) => {
  const [span, setSpan] = useState<SpanId>("day");
  const days = span === "day" ? 1 : RATE_MONTH_DAYS;
  const percent = tidy(percentFromK(kPerDay, days));
  return (
    <>
      <ChoiceField label="Per" value={span} choices={spans} onCommit={setSpan} />
      <NumberField
        label="Proportional loss"
        unit={span === "day" ? "%/day" : "%/month"}
        min={0}
        max={99.99}
        step={0.01}
        decimals={8}
        value={percent}
        isReadOnly={isReadOnly}
        fault={fault}
        onCommit={(share) => onCommit({ kPerDay: kFromPercent(share, days), cKgPerDay }, "share lost")}
      />
      <NumberField
        label="Constant loss"
        unit="kg/day"
        min={0}
        max={1e7}
        step={1}
        value={cKgPerDay}
        isReadOnly={isReadOnly}
        origin="independent of level"
        onCommit={(steady) => onCommit({ kPerDay, cKgPerDay: steady }, "steady loss")}
      />
      <p className="form-advice">
        {kPerDay > 0 ? compoundWords(percent, days) : COMPOUND_MEANING}
        {levelKg !== null && levelKg > 0 && (
          <>
            {" "}
            At the present {formatMass(levelKg)} that is {formatMass(kPerDay * levelKg + cKgPerDay)} a day in all.
          </>
        )}
      </p>
    </>
  );
};
