/** Small choices that the page keeps between starts. */
import { type MassUnit, massUnits } from "../format/mass.ts";
import { fittingWidth } from "./inspector-choice.ts";

const UNIT_KEY = "coldstock.unit";

/** The unit chosen before; by magnitude where none was. */
export const rememberedMassUnit = (): MassUnit => {
  const stored = localStorage.getItem(UNIT_KEY);
  return massUnits.find((unit) => unit === stored) ?? "auto";
};

export const rememberMassUnit = (unit: MassUnit): void => localStorage.setItem(UNIT_KEY, unit);

const WIDTH_KEY = "coldstock.inspector";

/** The inspector's width drawn before, pixels; the usual one where none was. */
export const rememberedInspectorWidth = (): number => fittingWidth(Number(localStorage.getItem(WIDTH_KEY) ?? NaN));

export const rememberInspectorWidth = (width: number): void => localStorage.setItem(WIDTH_KEY, String(width));

const TOUR_KEY = "coldstock.tour";

/** Whether a start before this one offered the first tour. */
export const wasTourOffered = (): boolean => localStorage.getItem(TOUR_KEY) !== null;

export const rememberTourOffered = (): void => localStorage.setItem(TOUR_KEY, "offered");

/** What was chosen of a table: columns that are not shown, and what it is sorted by. */
export interface TableChoice {
  readonly hidden: readonly string[];
  readonly sort: { readonly id: string; readonly desc: boolean } | null;
}

const tableKey = (tableId: string): string => `coldstock.table.${tableId}`;
const AS_IT_COMES: TableChoice = { hidden: [], sort: null };

/** As it was left; as it comes where nothing was chosen, or what is kept cannot be read. */
export const rememberedTable = (tableId: string): TableChoice => {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(tableKey(tableId)) ?? "null");
    if (typeof kept !== "object" || kept === null) return AS_IT_COMES;
    const { hidden, sort } = kept as { readonly hidden?: unknown; readonly sort?: unknown };
    const sorted =
      typeof sort === "object" && sort !== null ? (sort as { readonly id?: unknown; readonly desc?: unknown }) : null;
    return {
      hidden: Array.isArray(hidden) ? hidden.filter((id) => typeof id === "string") : [],
      sort: typeof sorted?.id === "string" ? { id: sorted.id, desc: sorted.desc === true } : null,
    };
  } catch {
    return AS_IT_COMES;
  }
};

export const rememberTable = (tableId: string, choice: TableChoice): void =>
  localStorage.setItem(tableKey(tableId), JSON.stringify(choice));
