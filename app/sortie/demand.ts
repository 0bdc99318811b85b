/** The sheet in the form in which the forecast takes it: what must be aboard at loading, and what comes home. */
import type { SortieSheet } from "./sheet.ts";

/** One propellant, kg. `returnKg` is what is aboard at the end if nothing but the plan was used. */
export interface DemandLine {
  readonly propellantId: string;
  readonly loadKg: number;
  readonly returnKg: number;
}

/** The demand of a sortie, one line for each propellant of which something is loaded. */
export const demandOf = (sheet: SortieSheet): DemandLine[] =>
  sheet.lines
    .filter((line) => line.loadKg > 0)
    .map(({ propellantId, loadKg, returnKg }) => ({ propellantId, loadKg, returnKg }));
