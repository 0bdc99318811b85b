/** The heat balance that a form begins with, from what the tank is. */
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { Cooler, HeatBalance, HeatPath, Insulation } from "../../app/entity/heat-balance.ts";
import { DEFAULT_DEGRADATION_FACTOR, doubleAluminisedMylarSilkNet } from "../../app/storage/insulation-material.ts";
import { STANDARD_PRESSURE_KPA, saturationAtPressure } from "../../app/fluid/saturation.ts";

/** Area of a sphere of so many m³, to 0.1 m²: the least that a tank can have. */
const sphereM2 = (volumeM3: number): number => Math.round(10 * Math.cbrt(36 * Math.PI * volumeM3 ** 2)) / 10;

export const freshLayers = (areaM2: number): Insulation => ({
  kind: "layers",
  areaM2,
  material: doubleAluminisedMylarSilkNet,
  layers: 40,
  layersPerCm: 15,
  hotK: 250,
  residualGasTorr: 0,
  degradationFactor: DEFAULT_DEGRADATION_FACTOR,
});

export const freshPath = (): HeatPath => ({ cause: "penetration", label: "Fill and vent lines", heatW: 5, note: "" });

export const freshCooler = (balance: Pick<HeatBalance, "fluid" | "pressureKPa">): Cooler => ({
  name: "Cooler",
  lift: [
    { temperatureK: Math.floor(saturationAtPressure(balance.fluid, balance.pressureKPa).temperatureK), liftW: 20 },
  ],
  powerW: 1000,
  massKg: 100,
  isRunning: true,
  note: "",
});

/** null: the tank holds no cryogen of which the properties are tabulated. */
export const freshBalance = (plan: PlanSnapshot, tankId: string): HeatBalance | null => {
  const tank = plan.tanks.find(({ id }) => id === tankId);
  const propellant = plan.propellants.find(({ id }) => id === tank?.propellantId);
  if (tank === undefined || propellant?.fluid == null) return null;
  const volumeM3 = tank.volumeM3 ?? tank.maximumFillKg / propellant.densityKgPerM3;
  return {
    kind: "heat balance",
    fluid: propellant.fluid,
    pressureKPa: STANDARD_PRESSURE_KPA,
    insulation: freshLayers(sphereM2(volumeM3)),
    paths: [],
    environmentFactor: 1,
    coolers: [],
  };
};
