/** Liquids that a tank may hold, as plain data: density and heat of vaporisation with source and status. */
import type { Fluid } from "../fluid/fluid.ts";

/** How well a figure is known, in words that a person reads. */
export type FigureStatus = "reference equation of state" | "from memory, 1–2 %";

export interface Liquid {
  readonly symbol: string;
  readonly name: string;
  /** The property table that describes it; null: stored as a liquid without boil-off. */
  readonly fluid: Fluid | null;
  /** Cryogens: saturated at 101.325 kPa. Storables: near room temperature. kg/m³ */
  readonly densityKgPerM3: number;
  /** kJ/kg at 101.325 kPa; null for storables. */
  readonly vaporisationKJPerKg: number | null;
  readonly status: FigureStatus;
  readonly source: string;
}

const cryogen = (
  symbol: string,
  name: string,
  fluid: Fluid,
  density: number,
  heat: number,
  source: string,
): Liquid => ({
  symbol,
  name,
  fluid,
  densityKgPerM3: density,
  vaporisationKJPerKg: heat,
  status: "reference equation of state",
  source,
});

const storable = (symbol: string, name: string, density: number): Liquid => ({
  symbol,
  name,
  fluid: null,
  densityKgPerM3: density,
  vaporisationKJPerKg: null,
  status: "from memory, 1–2 %",
  source: "no published text was at hand",
});

export const liquids: readonly Liquid[] = [
  cryogen("LH2", "Hydrogen", "H2", 70.828, 446.066, "Leachman and others 2009 (para-hydrogen)"),
  cryogen("LOX", "Oxygen", "O2", 1141.172, 213.056, "Stewart, Jacobsen, Wagner 1991"),
  cryogen("LCH4", "Methane", "CH4", 422.356, 510.828, "Setzmann, Wagner 1991"),
  storable("N2O4", "Dinitrogen tetroxide", 1443),
  storable("MMH", "Monomethylhydrazine", 878),
  storable("N2H4", "Hydrazine", 1008),
  storable("RP-1", "Kerosene", 810),
];
