/** Where a burn's Δv comes from: stated with its source, computed between two orbits, or integrated as a gravity turn. */
import type { BurnDeltaV, BurnStep } from "../../../../app/entity/profile.ts";
import { ChoiceField } from "../../../widgets/choice-field.tsx";
import { NumberField } from "../../../widgets/number-field.tsx";
import { TextField } from "../../../widgets/text-field.tsx";
import { TransferFields } from "./transfer-fields.tsx";

interface DeltaVFieldsProps {
  readonly step: BurnStep;
  readonly isReadOnly: boolean;
  readonly onChange: (next: BurnDeltaV) => void;
}

type Kind = BurnDeltaV["kind"];

const stated = { id: "stated", name: "stated" } as const;
const choicesFor = {
  transfer: [stated, { id: "computed transfer", name: "computed", note: "between two orbits about the Moon" }],
  descent: [stated, { id: "computed descent", name: "integrated", note: "gravity turn from a circular orbit" }],
  ascent: [stated, { id: "computed ascent", name: "integrated", note: "gravity turn to a circular orbit" }],
} as const;

const fresh = (kind: Kind, phase: BurnStep["phase"], allowanceMPerS: number): BurnDeltaV => {
  if (kind === "computed descent")
    return {
      kind,
      orbitKm: 100,
      touchdownMPerS: 1,
      vertical: { fromHeightM: 150, fromSpeedMPerS: 12 },
      allowanceMPerS,
    };
  if (kind === "computed ascent") return { kind, orbitKm: 100, riseM: 30, allowanceMPerS };
  if (kind === "computed transfer") {
    const [from, to] = [
      { periapsisKm: 100, apoapsisKm: 100 },
      { periapsisKm: 15, apoapsisKm: 100 },
    ];
    return { kind, from, to, turnDeg: 0, split: "best", burn: "departure", allowanceMPerS, stated: null };
  }
  return { kind: "stated", mPerS: phase === "ascent" ? 1874 : 2076, allowanceMPerS, basis: "assumed" };
};

export const DeltaVFields = ({ step, isReadOnly, onChange }: DeltaVFieldsProps) => {
  const { deltaV, phase } = step;
  const number = (
    label: string,
    unit: string,
    range: readonly [number, number],
    value: number,
    put: (value: number) => BurnDeltaV,
    origin: string | null = null,
  ) => (
    <NumberField
      label={label}
      unit={unit}
      min={range[0]}
      max={range[1]}
      step={label === "Δv" ? 10 : 1}
      value={value}
      isReadOnly={isReadOnly}
      origin={origin}
      onCommit={(next) => onChange(put(next))}
    />
  );
  return (
    <>
      <ChoiceField<Kind>
        label="Δv from"
        value={deltaV.kind}
        choices={choicesFor[phase]}
        isReadOnly={isReadOnly}
        onCommit={(kind) => onChange(fresh(kind, phase, deltaV.allowanceMPerS))}
      />
      {deltaV.kind === "stated" && (
        <>
          {number("Δv", "m/s", [0, 20_000], deltaV.mPerS, (mPerS) => ({ ...deltaV, mPerS }))}
          <TextField
            label="Source"
            most={200}
            value={deltaV.basis}
            isReadOnly={isReadOnly}
            placeholder="who says so"
            onCommit={(basis) => onChange({ ...deltaV, basis })}
          />
        </>
      )}
      {deltaV.kind === "computed transfer" && (
        <TransferFields deltaV={deltaV} isReadOnly={isReadOnly} onChange={onChange} />
      )}
      {(deltaV.kind === "computed descent" || deltaV.kind === "computed ascent") &&
        number("Circular orbit", "km", [5, 1000], deltaV.orbitKm, (orbitKm) => ({ ...deltaV, orbitKm }))}
      {deltaV.kind === "computed descent" && (
        <>
          {number("Touchdown at", "m/s", [0.1, 50], deltaV.touchdownMPerS, (touchdownMPerS) => ({
            ...deltaV,
            touchdownMPerS,
          }))}
          <ChoiceField
            label="The last stretch"
            value={deltaV.vertical === null ? "turn" : "vertical"}
            choices={[
              { id: "vertical", name: "straight down" },
              { id: "turn", name: "gravity turn to the surface" },
            ]}
            isReadOnly={isReadOnly}
            onCommit={(way) =>
              onChange({ ...deltaV, vertical: way === "turn" ? null : { fromHeightM: 150, fromSpeedMPerS: 12 } })
            }
          />
          {deltaV.vertical !== null && (
            <>
              {number("Straight down from", "m", [1, 5000], deltaV.vertical.fromHeightM, (fromHeightM) => ({
                ...deltaV,
                vertical: { fromSpeedMPerS: 12, ...deltaV.vertical, fromHeightM },
              }))}
              {number("At a speed of", "m/s", [0.2, 200], deltaV.vertical.fromSpeedMPerS, (fromSpeedMPerS) => ({
                ...deltaV,
                vertical: { fromHeightM: 150, ...deltaV.vertical, fromSpeedMPerS },
              }))}
            </>
          )}
        </>
      )}
      {deltaV.kind === "computed ascent" && (
        <>
          {number("Straight up to", "m", [1, 5000], deltaV.riseM, (riseM) => ({ ...deltaV, riseM }))}
          <NumberField
            label="Coast stays above"
            unit={deltaV.coastAboveKm === undefined ? "" : "km"}
            min={0}
            max={1000}
            value={deltaV.coastAboveKm ?? null}
            placeholder="level cut-off"
            isReadOnly={isReadOnly}
            origin="by the turn that takes least"
            onCommit={(coastAboveKm) => onChange({ ...deltaV, coastAboveKm })}
            onClear={() => {
              const { coastAboveKm: _dropped, ...others } = deltaV;
              onChange(others);
            }}
          />
        </>
      )}
      {number(
        "Allowance",
        "m/s",
        [0, 20_000],
        deltaV.allowanceMPerS,
        (allowanceMPerS) => ({ ...deltaV, allowanceMPerS }),
        phase === "transfer" ? "losses of a finite burn, steering" : "approach, redesignation, hover",
      )}
    </>
  );
};
