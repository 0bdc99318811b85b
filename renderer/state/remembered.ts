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
