/** The fluids for which the saturation line is tabulated. */
import type { saturationSource } from "./saturation-data.ts";

export type Fluid = keyof typeof saturationSource;

/** What the fluid is, in words. */
export const fluidName: { readonly [F in Fluid]: string } = { H2: "para-hydrogen", O2: "oxygen", CH4: "methane" };
