/** A column of masses: one unit for the whole column, in its heading, so that figures can be compared at a glance. */
import { type MassUnit, massFigure, shortageFigure, unitOf } from "../format/mass.ts";
import { formatSigned } from "../format/number.ts";
import type { Column } from "./data-table/column.ts";

interface MassColumnOptions<R> {
  readonly id: string;
  readonly heading: string;
  readonly massKg: (row: R) => number | null;
  /** Margins bear their sign. */
  readonly isSigned?: boolean;
  /** What is missing, or a margin: never rounded to nothing. */
  readonly isShortage?: boolean;
  readonly title?: (row: R) => string | undefined;
}

/** t from 1,000 kg of the largest, where the choice is left to the magnitude. Empty where there is no mass. */
export const massColumn = <R>(
  rows: readonly R[],
  choice: MassUnit,
  { massKg, isSigned = false, isShortage = false, ...rest }: MassColumnOptions<R>,
): Column<R> => {
  const most = rows.reduce((largest, row) => Math.max(largest, Math.abs(massKg(row) ?? 0)), 0);
  const unit = unitOf(most, choice);
  const decimals = unit === "t" ? 2 : 0;
  // In the unit of the heading, for it goes out as it is when the table is copied.
  const value = (row: R): number | null => {
    const mass = massKg(row);
    return mass === null || unit === "kg" ? mass : mass / 1000;
  };
  return {
    ...rest,
    unit,
    isNumber: true,
    value,
    text: (row) => {
      const mass = massKg(row);
      if (mass === null) return "";
      if (isShortage) return shortageFigure(mass, unit, decimals, isSigned);
      return isSigned ? formatSigned(unit === "t" ? mass / 1000 : mass, decimals) : massFigure(mass, unit, decimals);
    },
  };
};
