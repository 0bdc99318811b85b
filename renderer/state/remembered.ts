/** Small choices that the page keeps between starts. */
import { type MassUnit, massUnits } from "../format/mass.ts";

const UNIT_KEY = "coldstock.unit";

/** The unit chosen before; by magnitude where none was. */
export const rememberedMassUnit = (): MassUnit => {
  const stored = localStorage.getItem(UNIT_KEY);
  return massUnits.find((unit) => unit === stored) ?? "auto";
};

export const rememberMassUnit = (unit: MassUnit): void => localStorage.setItem(UNIT_KEY, unit);
