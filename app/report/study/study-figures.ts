/** Figures of a study as a report writes them: in the report's unit of mass, shares as per cent, with the decimals they need. */
import { formatNumber, withUnit } from "../../format/number.ts";
import type { ShownUnit } from "../../study/shown-figure.ts";

/** More decimals are never shown on paper; the workbook has all digits. */
const MAX_DECIMALS = 6;

/** Fewest decimals that tell every one of the values, shown with this unit, from its neighbours and do not change it. */
export const decimalsFor = (values: readonly number[], { per }: ShownUnit): number => {
  for (let decimals = 0; decimals < MAX_DECIMALS; decimals += 1) {
    const isEnough = values.every((value) => {
      const shown = value / per;
      return !Number.isFinite(shown) || Math.abs(shown - Number(shown.toFixed(decimals))) < 10 ** -(MAX_DECIMALS + 1);
    });
    if (isEnough) return decimals;
  }
  return MAX_DECIMALS;
};

/** Decimals of a probability for people, per cent. */
export const SHARE_DECIMALS = 1;

/** "1.5 t", "93.2 %", "2". */
export const figureText = (value: number, shown: ShownUnit): string => {
  const needed = decimalsFor([value], shown);
  const text = formatNumber(value / shown.per, shown.unit === "%" ? Math.min(needed, SHARE_DECIMALS) : needed);
  return shown.unit === "" ? text : withUnit(text, shown.unit);
};
