/** Why Tarn's cold tanks lose what they lose: their heat balances, coolers that stood still, weeks in the sun. Invented. */
import type { Entity } from "../entity/entities.ts";
import type { HeatBalance } from "../entity/heat-balance.ts";
import { balanceDuring, seasonPeriods } from "../storage/heat-periods.ts";
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

/**
 * Some 83 W come in and two coolers lift 38 W at 20 K: what is left boils about 9 kg a day, less than the literature quotes
 * for passive storage of as much; with the coolers off it is about that.
 */
const hydrogenBalance: HeatBalance = {
  kind: "heat balance",
  fluid: "H2",
  pressureKPa: 101.325,
  insulation: {
    kind: "layers",
    areaM2: 215,
    material: doubleAluminisedMylarSilkNet,
    layers: 50,
    layersPerCm: 15,
    hotK: 250,
    residualGasTorr: 0,
    degradationFactor: DEFAULT_DEGRADATION_FACTOR,
  },
  paths: [
    { cause: "penetration", label: "Fill, vent and gauge lines", heatW: 17, note: "Invented." },
    { cause: "support", label: "Struts to the truss", heatW: 13, note: "Invented." },
    { cause: "mixing", label: "Mixing jet", heatW: 6, note: "Invented." },
  ],
  environmentFactor: 1,
  // Each as the one that NTRS 20180004709 is quoted for: 19.2 W at 20 K for about 1.8 kW and 106 kg.
  coolers: ["first", "second"].map((which) => ({
    name: `Hydrogen cooler, ${which}`,
    lift: [
      { temperatureK: 18, liftW: 16 },
      { temperatureK: 20, liftW: 19.2 },
      { temperatureK: 25, liftW: 26 },
    ],
    powerW: 1800,
    massKg: 106,
    isRunning: true,
    note: "Lift, power and mass at 20 K as quoted of NTRS 20180004709; the rest invented.",
  })),
};

const ofHydrogen = { tankId: "tarn-hydrogen", planCaseId: null } as const;

/** Hydrogen by its heat balance; the outage of both coolers, which share a coolant loop, is invented. */
export const tarnHydrogenPeriods: readonly Entity<"lossPeriod">[] = [
  {
    id: "tarn-hydrogen-base",
    ...ofHydrogen,
    fromAt: null,
    untilAt: null,
    basis: hydrogenBalance,
    reason: "cooler running",
    note: "",
  },
  {
    id: "tarn-hydrogen-outage",
    ...ofHydrogen,
    fromAt: day("2031-01-14"),
    untilAt: day("2031-01-26"),
    basis: balanceDuring(hydrogenBalance, [
      {
        kind: "cooler outage",
        cooler: null,
        fromAt: day("2031-01-14"),
        untilAt: day("2031-01-26"),
        reason: "cooler outage",
      },
    ]),
    reason: "cooler outage",
    note: "Pump of the coolant loop; repaired from the spare.",
  },
];

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
