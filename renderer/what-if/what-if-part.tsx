/** In the inspector of a flight: lost, late, less aboard, by hand and at once; the figures above and every view follow. */
import { useId } from "react";
import type { Flight } from "../../app/entity/flight.ts";
import { AS_PLANNED, type Supposed, canSuppose } from "../../app/supply/supposed.ts";
import { formatNumber } from "../format/number.ts";
import { suppose } from "../state/trial.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { CheckField } from "../widgets/check-field.tsx";
import { FormSection } from "../widgets/form-row.tsx";
import "./what-if.css";

/** A slip of more is another plan. */
const MAX_DAYS = 180;

interface SliderProps {
  readonly label: string;
  readonly value: number;
  readonly max: number;
  readonly step: number;
  readonly words: string;
  /** Why it cannot be moved now, in words; null: it can. */
  readonly unable: string | null;
  readonly onChange: (value: number) => void;
}

const Slider = ({ label, value, max, step, words, unable, onChange }: SliderProps) => {
  const id = useId();
  return (
    <div className="what-if-slider">
      <label htmlFor={id}>{label}</label>
      <output htmlFor={id}>{words}</output>
      <input
        id={id}
        type="range"
        min={0}
        max={max}
        step={step}
        value={value}
        disabled={unable !== null}
        title={unable ?? undefined}
        aria-valuetext={words}
        onChange={(event) => onChange(Number(event.currentTarget.value))}
      />
    </div>
  );
};

const dayWords = (days: number): string =>
  days === 0 ? "as planned" : `${String(days)} ${days === 1 ? "day" : "days"}`;

export const WhatIfPart = ({ flight }: { flight: Flight }) => {
  const { store } = useSession();
  const supposed = useApp((state) => state.trial?.supposed[flight.key]) ?? AS_PLANNED;
  const can = canSuppose(flight.status === "cancelled" && supposed.isLost ? { status: "planned" } : flight);
  if (!can.late) return null;
  const change = (patch: Partial<Supposed>): void => suppose(store, flight.key, { ...supposed, ...patch });
  const loadWords = supposed.loadShare === 1 ? "as planned" : `${formatNumber(100 * supposed.loadShare, 0)} %`;
  return (
    <FormSection title="What if">
      <div className="what-if">
        {can.less && (
          <CheckField isOn={supposed.isLost} onCommit={(isLost) => change({ isLost })}>
            Lost on the way
          </CheckField>
        )}
        <Slider
          label="Late by"
          value={supposed.slipDays}
          max={MAX_DAYS}
          step={1}
          words={dayWords(supposed.slipDays)}
          unable={supposed.isLost ? "It is supposed to be lost: it neither comes late nor carries less." : null}
          onChange={(slipDays) => change({ slipDays })}
        />
        {can.less && (
          <Slider
            label="Load aboard"
            value={Math.round(100 * supposed.loadShare)}
            max={100}
            step={1}
            words={loadWords}
            unable={supposed.isLost ? "It is supposed to be lost: it neither comes late nor carries less." : null}
            onChange={(percent) => change({ loadShare: percent / 100 })}
          />
        )}
      </div>
    </FormSection>
  );
};
