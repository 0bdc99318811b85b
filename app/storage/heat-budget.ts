/** Where the heat that reaches a tank comes from, line by line, and what is left after the coolers. */
import type { HeatBalance, HeatCause, Insulation } from "../entity/heat-balance.ts";
import { netHeatW } from "./boil-off.ts";
import { coolersTogether } from "./cooler.ts";
import { type BlanketFlux, blanketFlux, FITTED_TO_HOT_K, TESTED_FROM_COLD_K } from "./insulation.ts";
import { type SaturationState, saturationAtPressure } from "../fluid/saturation.ts";

/** One line of the budget, W, before the environment factor. */
export interface HeatLine {
  readonly cause: "insulation" | HeatCause;
  readonly label: string;
  readonly heatW: number;
  readonly note: string;
}

export interface HeatBudget {
  /** The liquid in the tank. */
  readonly state: SaturationState;
  readonly lines: readonly HeatLine[];
  /** The bare blanket's flux by way, W/m²; null where no layers are described. */
  readonly bareFlux: BlanketFlux | null;
  /** Flux as installed, W/m²; null without insulation. */
  readonly installedFluxWPerM2: number | null;
  readonly environmentFactor: number;
  /** Sum of the lines; times the environment factor. */
  readonly describedW: number;
  readonly heatInW: number;
  /** Of the coolers that run. */
  readonly liftW: number;
  readonly coolerPowerW: number;
  readonly coolerMassKg: number;
  /** What boils the liquid. */
  readonly netW: number;
  /** What a planner should know before believing it. */
  readonly cautions: readonly string[];
}

const fluxOf = (
  insulation: Insulation,
  coldK: number,
): { bare: BlanketFlux | null; installed: number; note: string } => {
  if (insulation.kind === "flux") return { bare: null, installed: insulation.fluxWPerM2, note: insulation.note };
  const bare = blanketFlux({ ...insulation, coldK });
  const note = `${insulation.layers} layers at ${insulation.layersPerCm} per cm, ${insulation.hotK} K outside, installed leak ${insulation.degradationFactor} × bare; ${insulation.material.name}`;
  return { bare, installed: bare.total * insulation.degradationFactor, note };
};

const cautionsOf = (balance: HeatBalance, coldK: number): string[] => {
  const cautions: string[] = [];
  const { insulation } = balance;
  if (insulation === null) cautions.push("No insulation is described: heat through the wall is not counted.");
  if (insulation?.kind === "layers" && insulation.hotK > FITTED_TO_HOT_K) {
    cautions.push(`The correlation was fitted to hot sides of about 300 K; ${insulation.hotK} K lies outside.`);
  }
  if (insulation?.kind === "layers" && coldK < TESTED_FROM_COLD_K) {
    cautions.push(
      `The insulation correlation was not tested with cold sides under ${TESTED_FROM_COLD_K} K; this one is at ${coldK.toFixed(1)} K. Believe a measured rate before it.`,
    );
  }
  if (insulation?.kind === "layers" && insulation.degradationFactor < 1.2) {
    cautions.push(
      "Installed blankets leak more than bare ones: one was measured at 1.2 times, and up to 4 times is usual (from memory). The factor here is below that.",
    );
  }
  return cautions;
};

/** The budget of one heat balance. Throws "invalid input" if the insulation cannot be (no layers, outside colder than inside). */
export const heatBudget = (balance: HeatBalance): HeatBudget => {
  const state = saturationAtPressure(balance.fluid, balance.pressureKPa);
  const lines: HeatLine[] = [];
  const flux = balance.insulation === null ? null : fluxOf(balance.insulation, state.temperatureK);
  if (flux !== null && balance.insulation !== null) {
    const { areaM2 } = balance.insulation;
    lines.push({ cause: "insulation", label: "Insulation", heatW: flux.installed * areaM2, note: flux.note });
  }
  lines.push(...balance.paths);
  const describedW = lines.reduce((sum, line) => sum + line.heatW, 0);
  const coolers = coolersTogether(balance.coolers, state.temperatureK);
  return {
    state,
    lines,
    bareFlux: flux?.bare ?? null,
    installedFluxWPerM2: flux?.installed ?? null,
    environmentFactor: balance.environmentFactor,
    describedW,
    heatInW: balance.environmentFactor * describedW,
    liftW: coolers.liftW,
    coolerPowerW: coolers.powerW,
    coolerMassKg: coolers.massKg,
    netW: netHeatW(balance.environmentFactor, describedW, coolers.liftW),
    cautions: cautionsOf(balance, state.temperatureK),
  };
};
