/** Cells as text: for people (paper, page) and for machines (CSV). */
import { missingCase } from "../../ground/missing-case.ts";
import { shortageFigure } from "../../format/mass.ts";
import { NARROW_SPACE, formatNumber } from "../../format/number.ts";
import { formatDate, formatInstant } from "../../format/time.ts";
import type { Cell, Column, ReportMassUnit } from "../model.ts";

const perUnit = (unit: ReportMassUnit): number => (unit === "t" ? 1000 : 1);
/** Decimals of a mass for people: 10 kg or 1 kg. */
const massDecimals = (unit: ReportMassUnit): number => (unit === "t" ? 2 : 0);
/** Decimals of a booked mass for people: the kilogram, or a tenth of it. */
const bookedDecimals = (unit: ReportMassUnit): number => (unit === "t" ? 3 : 1);
/** Decimals that a booked mass needs to be exact to the gram. */
const bookDecimals = (unit: ReportMassUnit): number => (unit === "t" ? 6 : 3);

/** For people. A column's unit stands in its heading, so the cell is the figure alone. */
export const cellForPeople = (cell: Cell, unit: ReportMassUnit): string => {
  switch (cell.kind) {
    case "text":
      return cell.text;
    case "mass":
      return formatNumber(cell.kg / perUnit(unit), massDecimals(unit));
    case "shortage":
      return shortageFigure(cell.kg, unit, massDecimals(unit));
    case "grams":
      return formatNumber(cell.grams / 1000 / perUnit(unit), bookedDecimals(unit));
    case "number":
    case "percent":
    case "days":
      return formatNumber(cell.value, cell.decimals);
    case "instant":
      return formatDate(cell.at);
    case "nothing":
      return "";
    default:
      return missingCase(cell);
  }
};

/** Fifteen digits: all that a double carries, without the sixteenth that only shows how it is stored. */
const plain = (value: number): string => String(Number(value.toPrecision(15)));

/** For machines: full digits, a point, no spaces; instants whole. */
export const cellForMachines = (cell: Cell, unit: ReportMassUnit): string => {
  switch (cell.kind) {
    case "text":
      return cell.text;
    case "mass":
    case "shortage":
      return plain(cell.kg / perUnit(unit));
    case "grams":
      return (cell.grams / 1000 / perUnit(unit)).toFixed(bookDecimals(unit));
    case "number":
    case "percent":
    case "days":
      return plain(cell.value);
    case "instant":
      return formatInstant(cell.at);
    case "nothing":
      return "";
    default:
      return missingCase(cell);
  }
};

/** "Margin [t]": for machines, without a space that is hard to type. */
export const plainHeading = (column: Column, unit: ReportMassUnit): string =>
  column.unit === null ? column.title : `${column.title} [${column.unit === "mass" ? unit : column.unit}]`;

/** "Margin, t" */
export const headingOf = (column: Column, unit: ReportMassUnit): string =>
  column.unit === null ? column.title : `${column.title},${NARROW_SPACE}${column.unit === "mass" ? unit : column.unit}`;
