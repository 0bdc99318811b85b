/** A propellant: what is stored. */
import { z } from "zod";
import { id, label } from "../ground/quantity.ts";

export const propellant = z.strictObject({
  id,
  /** "Hydrogen" */
  name: label,
  /** "LH2" */
  symbol: z.string().min(1).max(8),
  /** The property table that describes it, where there is one. */
  fluid: z.enum(["H2", "O2", "CH4"]).nullable(),
  /** Density of the liquid as stored, kg/m³. */
  densityKgPerM3: z.number().min(10).max(3000),
  /** Place in every list and colour sequence, from 0. */
  position: z.int().min(0).max(99),
});

export type Propellant = Readonly<z.infer<typeof propellant>>;
