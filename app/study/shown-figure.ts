/** Figures of a study as people are shown them: masses in t where they are large or t is chosen, probabilities per cent. */
import { type MassUnit, unitOf } from "../format/mass.ts";
import { formatNumber, withUnit } from "../format/number.ts";
import { SHARE } from "./column-words.ts";

export interface ShownUnit {
  /** "": a number. */
  readonly unit: string;
  /** So many of the study's unit are one of the unit shown. */
  readonly per: number;
}

/** What a unit is shown in; `most`: the largest of the figures, by which a mass is in t where nothing is chosen. */
export const shownUnit = (unit: string, choice: MassUnit, most = 0): ShownUnit =>
  unit === SHARE
    ? { unit: "%", per: 0.01 }
    : unit === "kg" && unitOf(most, choice) === "t"
      ? { unit: "t", per: 1000 }
      : { unit, per: 1 };

const MAX_DECIMALS = 4;

/** As many decimals as the value has, at most `most`: 0.75 and not 0.7500. */
export const decimalsShown = (value: number, most = MAX_DECIMALS): number => {
  for (let decimals = 0; decimals < most; decimals += 1)
    if (Math.abs(value - Number(value.toFixed(decimals))) < 10 ** -(most + 1)) return decimals;
  return most;
};

/** A value with its unit, to so many figures as it needs: "0.127 %/day", "12.4 t". */
export const valueText = (value: number | null, unit: string, choice: MassUnit): string => {
  if (value === null || !Number.isFinite(value)) return "–";
  const shown = shownUnit(unit, choice, Math.abs(value));
  const inUnit = value / shown.per;
  const size = Math.abs(inUnit);
  const most = size >= 1000 ? 0 : size >= 100 ? 1 : size >= 1 ? 2 : 4;
  const text = formatNumber(inUnit, decimalsShown(inUnit, most));
  return shown.unit === "" ? text : withUnit(text, shown.unit);
};
