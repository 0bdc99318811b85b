/** A burn between two orbits about the Moon: the orbits, how far their planes are apart, which of the burns, and what it takes. */
import type { Heights } from "../../../../app/orbits/orbit.ts";
import { type ComputedTransfer, transferBurnMPerS, transferOf } from "../../../../app/sortie/transfer-burn.ts";
import { formatNumber, withUnit } from "../../../format/number.ts";
import { ChoiceField } from "../../../widgets/choice-field.tsx";
import { StatedRow } from "../../../widgets/form-row.tsx";
import { NumberField } from "../../../widgets/number-field.tsx";
import { TextField } from "../../../widgets/text-field.tsx";

interface TransferFieldsProps {
  readonly deltaV: ComputedTransfer;
  readonly isReadOnly: boolean;
  readonly onChange: (next: ComputedTransfer) => void;
}

const burns = [
  { id: "departure", name: "departure", note: "the first of the two burns" },
  { id: "capture", name: "capture", note: "the second" },
  { id: "plane change", name: "plane change alone", note: "at the highest point of the first orbit" },
] as const;

const splits = [
  { id: "best", name: "split for the least Δv" },
  { id: "departure", name: "all at departure" },
  { id: "capture", name: "all at capture" },
] as const;

/** Keeps the lower end at or below the upper one: the end that is typed counts. */
const withEnd = (orbit: Heights, end: keyof Heights, km: number): Heights =>
  end === "periapsisKm"
    ? { periapsisKm: km, apoapsisKm: Math.max(km, orbit.apoapsisKm) }
    : { periapsisKm: Math.min(km, orbit.periapsisKm), apoapsisKm: km };

const speed = (mPerS: number): string => withUnit(formatNumber(mPerS, 1), "m/s");

/** The whole transfer in a line: both burns, the turn in each, and how long it takes. */
const transferWords = (deltaV: ComputedTransfer): string => {
  const { departureMPerS, captureMPerS, departureTurnDeg, captureTurnDeg, durationS } = transferOf(deltaV);
  const turn = (deg: number): string => (deltaV.turnDeg === 0 ? "" : ` (turns ${formatNumber(deg, 1)}°)`);
  return `${speed(departureMPerS)}${turn(departureTurnDeg)} + ${speed(captureMPerS)}${turn(captureTurnDeg)}, ${withUnit(formatNumber(durationS / 3600, 2), "h")} between`;
};

export const TransferFields = ({ deltaV, isReadOnly, onChange }: TransferFieldsProps) => {
  const km = (label: string, value: number, put: (next: number) => Partial<ComputedTransfer>) => (
    <NumberField
      label={label}
      unit="km"
      min={1}
      max={200_000}
      value={value}
      isReadOnly={isReadOnly}
      onCommit={(next) => onChange({ ...deltaV, ...put(next) })}
    />
  );
  const isAlone = deltaV.burn === "plane change";
  const computed = transferBurnMPerS(deltaV);
  return (
    <>
      <ChoiceField
        label="Burn"
        value={deltaV.burn}
        choices={burns}
        isReadOnly={isReadOnly}
        onCommit={(burn) => onChange({ ...deltaV, burn })}
      />
      {km("From, lowest", deltaV.from.periapsisKm, (next) => ({ from: withEnd(deltaV.from, "periapsisKm", next) }))}
      {km("From, highest", deltaV.from.apoapsisKm, (next) => ({ from: withEnd(deltaV.from, "apoapsisKm", next) }))}
      {!isAlone && km("To, lowest", deltaV.to.periapsisKm, (next) => ({ to: withEnd(deltaV.to, "periapsisKm", next) }))}
      {!isAlone && km("To, highest", deltaV.to.apoapsisKm, (next) => ({ to: withEnd(deltaV.to, "apoapsisKm", next) }))}
      <NumberField
        label="Planes apart"
        unit="°"
        min={0}
        max={180}
        value={deltaV.turnDeg}
        isReadOnly={isReadOnly}
        onCommit={(turnDeg) => onChange({ ...deltaV, turnDeg })}
      />
      {!isAlone && deltaV.turnDeg > 0 && (
        <ChoiceField
          label="Plane turned"
          value={deltaV.split}
          choices={splits}
          isReadOnly={isReadOnly}
          onCommit={(split) => onChange({ ...deltaV, split })}
        />
      )}
      <StatedRow label="Δv, computed" title="Two bodies, impulsive; heights above the mean surface of the Moon">
        {speed(computed)}
      </StatedRow>
      {!isAlone && <StatedRow label="Whole transfer">{transferWords(deltaV)}</StatedRow>}
      <NumberField
        label="Δv, stated"
        unit={deltaV.stated === null ? "" : "m/s"}
        min={0}
        max={20_000}
        value={deltaV.stated?.mPerS ?? null}
        placeholder="none"
        isReadOnly={isReadOnly}
        origin={
          deltaV.stated === null
            ? "to compare; not used"
            : `computed is ${speed(Math.abs(computed - deltaV.stated.mPerS))} ${computed < deltaV.stated.mPerS ? "less" : "more"}`
        }
        onCommit={(mPerS) => onChange({ ...deltaV, stated: { basis: deltaV.stated?.basis ?? "assumed", mPerS } })}
        onClear={() => onChange({ ...deltaV, stated: null })}
      />
      {deltaV.stated !== null && (
        <TextField
          label="Source"
          most={200}
          value={deltaV.stated.basis}
          isReadOnly={isReadOnly}
          placeholder="who says so"
          onCommit={(basis) => onChange({ ...deltaV, stated: { mPerS: deltaV.stated?.mPerS ?? 0, basis } })}
        />
      )}
    </>
  );
};
