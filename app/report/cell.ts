/** Short ways to write cells and columns. */
import type { Cell, Column } from "./model.ts";

export const text = (value: string): Cell => ({ kind: "text", text: value });
/** Words that lead to a table or chart of the same report; null: to none. */
export const linked = (value: string, to: string | null): Cell =>
  to === null ? text(value) : { kind: "text", text: value, to };
export const mass = (kg: number): Cell => ({ kind: "mass", kg });
export const shortage = (kg: number): Cell => ({ kind: "shortage", kg });
export const number = (value: number, decimals: number): Cell => ({ kind: "number", value, decimals });
export const percent = (value: number, decimals = 1): Cell => ({ kind: "percent", value, decimals });
export const spanDays = (value: number, decimals = 1): Cell => ({ kind: "days", value, decimals });
export const instant = (at: number | null): Cell => (at === null ? { kind: "nothing" } : { kind: "instant", at });
export const nothing: Cell = { kind: "nothing" };

export const wordColumn = (title: string, weight = 1): Column => ({ title, unit: null, align: "start", weight });
export const figureColumn = (title: string, unit: string | null, weight = 1): Column => ({
  title,
  unit,
  align: "end",
  weight,
});
/** A column of masses: the unit is the report's. */
export const massColumn = (title: string, weight = 1): Column => ({ title, unit: "mass", align: "end", weight });
