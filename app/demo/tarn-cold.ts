/** Why Tarn's oxygen tank loses what it loses: its heat balance, a cooler that stood still, weeks in the sun. Invented. */
import type { Entity } from "../ledger/entities.ts";
import type { HeatBalance } from "../ledger/entity/heat-balance.ts";
import { seasonPeriods } from "../storage/heat-periods.ts";
import { DEFAULT_DEGRADATION_FACTOR, doubleAluminisedMylarSilkNet } from "../storage/insulation-material.ts";

const day = (iso: string): number => Date.parse(`${iso}T00:00:00Z`);

/** Some 50 W come in, 34 W are lifted; what is left boils off about as much as the literature quotes for passive storage. */
const oxygenBalance: HeatBalance = {
  kind: "heat balance",
  fluid: "O2",
  pressureKPa: 101.325,
  insulation: {
    kind: "layers",
    areaM2: 90,
    material: doubleAluminisedMylarSilkNet,
    layers: 40,
    layersPerCm: 15,
    hotK: 250,
    residualGasTorr: 0,
    degradationFactor: DEFAULT_DEGRADATION_FACTOR,
  },
  paths: [
    { cause: "penetration", label: "Fill, vent and gauge lines", heatW: 14, note: "Invented." },
    { cause: "support", label: "Struts to the truss", heatW: 9, note: "Invented." },
    { cause: "mixing", label: "Mixing jet", heatW: 4, note: "Invented." },
  ],
  environmentFactor: 1,
  coolers: [
    {
      name: "Oxygen cooler",
      lift: [
        { temperatureK: 80, liftW: 26 },
        { temperatureK: 90, liftW: 34 },
        { temperatureK: 100, liftW: 40 },
      ],
      powerW: 720,
      massKg: 58,
      isRunning: true,
      note: "Invented.",
    },
  ],
};

const ofOxygen = { tankId: "tarn-oxygen", planCaseId: null } as const;

export const tarnOxygenPeriods: readonly Entity<"lossPeriod">[] = [
  {
    id: "tarn-oxygen-base",
    ...ofOxygen,
    fromAt: null,
    untilAt: null,
    basis: oxygenBalance,
    reason: "shaded, cooler running",
    note: "",
  },
  ...seasonPeriods(
    oxygenBalance,
    [
      {
        kind: "cooler outage",
        cooler: 0,
        fromAt: day("2031-03-11"),
        untilAt: day("2031-03-20"),
        reason: "oxygen cooler outage",
      },
      {
        kind: "environment",
        factor: 1.4,
        fromAt: day("2031-04-08"),
        untilAt: day("2031-04-22"),
        reason: "sun on the tank",
      },
      {
        kind: "environment",
        factor: 1.4,
        fromAt: day("2031-10-08"),
        untilAt: day("2031-10-22"),
        reason: "sun on the tank",
      },
    ],
    { ...ofOxygen, idStem: "tarn-oxygen-season" },
  ),
];
