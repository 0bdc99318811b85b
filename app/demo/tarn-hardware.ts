/** The depot Tarn and the craft that serve it. All invented, within what the trade calls usual. */
import type { Entity } from "../entity/entities.ts";
import { heronLander, heronWalls } from "./heron.ts";
import { wrenClass } from "./wren.ts";
import { FUEL_CELL_HYDROGEN_KG_PER_KWH, FUEL_CELL_OXYGEN_KG_PER_KWH } from "../plant/water-plant.ts";
import { tarnHydrogenPeriods, tarnOxygenPeriods } from "./tarn-cold.ts";

const day = (iso: string): number => Date.parse(`${iso}T00:00:00Z`);

/** A rate stated in % a day, compound: k = −ln(1 − r). */
const percentPerDay = (percent: number): number => -Math.log1p(-percent / 100);

export const tarnPropellants: readonly Entity<"propellant">[] = [
  { id: "hydrogen", name: "Hydrogen", symbol: "LH2", fluid: "H2", densityKgPerM3: 70.828, position: 0 },
  { id: "oxygen", name: "Oxygen", symbol: "LOX", fluid: "O2", densityKgPerM3: 1141.172, position: 1 },
  { id: "hydrazine", name: "Hydrazine", symbol: "N2H4", fluid: null, densityKgPerM3: 1008, position: 2 },
];

export const tarn: Entity<"depot"> = {
  id: "tarn",
  name: "Tarn",
  orbit: "near-rectilinear halo, 9:2",
  windowPeriodDays: 6.56235,
  windowReferenceAt: Date.parse("2030-12-01T06:00:00Z"),
  ports: 2,
  note: "Invented for the demonstration.",
  windowList: null,
  lunarOrbit: null,
};

export const tarnSources: readonly Entity<"source">[] = [
  { id: "ground", name: "Ground", kind: "ground", note: "", plant: null },
  {
    id: "rim-plant",
    name: "Rim plant",
    kind: "plant",
    note: "Under study: ice from the shaded crater, split on the rim. Nothing of the plan rests on it. Invented.",
    plant: {
      waterKgPerDay: 320,
      recoveryFraction: 0.92,
      mixtureRatio: 5.7,
      persons: 4,
      fuelCellKWhPerDay: 60,
      fuelCellHydrogenKgPerKWh: FUEL_CELL_HYDROGEN_KG_PER_KWH,
      fuelCellOxygenKgPerKWh: FUEL_CELL_OXYGEN_KG_PER_KWH,
      electrolysisKWhPerKgHydrogen: 55,
      liquefactionKWhPerKgHydrogen: 10,
      liquefactionKWhPerKgOxygen: 0.5,
      duty: [
        { fromAt: day("2031-07-01"), untilAt: day("2031-10-08") },
        { fromAt: day("2031-10-22"), untilAt: day("2032-03-01") },
      ],
    },
  },
];

const tank = (
  id: string,
  owner: Pick<Entity<"tank">, "ownerKind" | "ownerId">,
  propellantId: string,
  name: string,
  volumeM3: number,
  ullagePercent: number,
  limits: readonly [maximumFillKg: number, heelKg: number, reserveKg: number],
): Entity<"tank"> => ({
  id,
  ...owner,
  propellantId,
  name,
  volumeM3,
  ullagePercent,
  maximumFillKg: limits[0],
  heelKg: limits[1],
  reserveKg: limits[2],
  rank: null,
});

const atTarn = { ownerKind: "depot", ownerId: "tarn" } as const;
const aboardHeron = { ownerKind: "craft", ownerId: "heron-1" } as const;

export const tarnTanks: readonly Entity<"tank">[] = [
  tank("tarn-hydrogen", atTarn, "hydrogen", "Tarn hydrogen", 260, 7, [17_000, 250, 1500]),
  tank("tarn-oxygen", atTarn, "oxygen", "Tarn oxygen", 78, 4, [85_000, 900, 5000]),
  tank("tarn-hydrazine", atTarn, "hydrazine", "Tarn hydrazine", 2.6, 4, [2500, 30, 200]),
  tank("heron-1-hydrogen", aboardHeron, "hydrogen", "Heron 1 hydrogen", 106, 5, [7100, 0, 0]),
  tank("heron-1-oxygen", aboardHeron, "oxygen", "Heron 1 oxygen", 35, 3, [38_700, 0, 0]),
  tank("heron-1-hydrazine", aboardHeron, "hydrazine", "Heron 1 hydrazine", 0.9, 4, [870, 0, 0]),
];

const line = (
  propellantId: string,
  capacityKg: number,
  loadKg: number,
  lossPercentPerDay: number,
  more: Partial<Entity<"craftClass">["propellants"][number]> = {},
): Entity<"craftClass">["propellants"][number] => ({
  propellantId,
  capacityKg,
  loadKg,
  returnKg: 0,
  kPerDay: percentPerDay(lossPercentPerDay),
  cKgPerDay: 0,
  residualKg: Math.round(loadKg * 0.006),
  chilldownKg: 0,
  lossFraction: 0.002,
  rateKgPerDay: null,
  ...more,
});

export const tarnClasses: readonly Entity<"craftClass">[] = [
  {
    id: "packhorse",
    name: "Packhorse",
    role: "tanker",
    propellants: [
      line("hydrogen", 2200, 2000, 0.3, { chilldownKg: 18 }),
      line("oxygen", 9000, 8000, 0.03, { chilldownKg: 30 }),
      line("hydrazine", 200, 130, 0),
    ],
    tripDays: 6,
    berthDays: 3,
    turnaroundDays: 30,
    costPerFlight: 34,
    costUnit: "units",
    hardwareKg: 1100,
    note: "Small and frequent. Invented.",
    lander: null,
  },
  {
    id: "drover",
    name: "Drover",
    role: "tanker",
    propellants: [
      line("hydrogen", 6400, 5600, 0.15, { chilldownKg: 25, rateKgPerDay: 4000 }),
      line("oxygen", 27_000, 24_000, 0.015, { chilldownKg: 45, rateKgPerDay: 16_000 }),
      line("hydrazine", 600, 360, 0),
    ],
    tripDays: 100,
    berthDays: 6,
    turnaroundDays: 60,
    costPerFlight: 78,
    costUnit: "units",
    hardwareKg: 2600,
    note: "Large and rare, on a slow ballistic transfer. Invented.",
    lander: null,
  },
  {
    id: "heron",
    name: "Heron",
    role: "lander",
    propellants: [
      line("hydrogen", 7100, 6610, 0.35, {
        returnKg: 275,
        residualKg: 0,
        chilldownKg: 30,
        wall: heronWalls.hydrogen,
      }),
      line("oxygen", 38_700, 37_440, 0.06, {
        returnKg: 1200,
        residualKg: 0,
        chilldownKg: 60,
        wall: heronWalls.oxygen,
      }),
      line("hydrazine", 870, 502, 0, { returnKg: 22, residualKg: 0 }),
    ],
    tripDays: 14,
    berthDays: 0,
    turnaroundDays: 0,
    costPerFlight: null,
    costUnit: "",
    hardwareKg: 2300,
    note: "Single stage, hydrogen and oxygen, about 60 t full. Invented.",
    lander: heronLander,
  },
  wrenClass,
];

export const tarnCraft: readonly Entity<"craft">[] = [
  ...[1, 2, 3].map((n) => ({
    id: `packhorse-${n}`,
    classId: "packhorse",
    name: `Packhorse hull ${n}`,
    note: "",
    engineChanges: [],
  })),
  ...[1, 2].map((n) => ({
    id: `drover-${n}`,
    classId: "drover",
    name: `Drover hull ${n}`,
    note: "",
    engineChanges: [],
  })),
  { id: "heron-1", classId: "heron", name: "Heron 1", note: "", engineChanges: [] },
];

/** Each by its heat balance; hydrazine is not lost. */
export const tarnLossPeriods: readonly Entity<"lossPeriod">[] = [...tarnHydrogenPeriods, ...tarnOxygenPeriods];
