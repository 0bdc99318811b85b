/** The fluids for which the saturation line is tabulated. */
import type { saturationSource } from "./saturation-data.ts";

export type Fluid = keyof typeof saturationSource;

/** Molar mass in g/mol, as used with the reference equations of state. */
export const molarMass: { readonly [F in Fluid]: number } = { H2: 2.01588, O2: 31.9988, CH4: 16.0428 };

/** What the fluid is, in words. */
export const fluidName: { readonly [F in Fluid]: string } = { H2: "para-hydrogen", O2: "oxygen", CH4: "methane" };
