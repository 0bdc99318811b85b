/** Builds small plans for tests: one depot or two, rows with sensible blanks, days counted from the as-of instant. */
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import type { Entity } from "../../../app/entity/entities.ts";
import type { CraftPropellant } from "../../../app/entity/craft.ts";
import { freshFlight } from "../../../app/entity/flight.ts";
import { freshSortie } from "../../../app/entity/sortie.ts";

export const DAY = 86_400_000;
export const START = Date.UTC(2031, 0, 1);

/** The instant so many days after the start. */
export const day = (days: number): number => START + Math.round(days * DAY);

export const tank = (id: string, over: Partial<Entity<"tank">> = {}): Entity<"tank"> => ({
  id,
  ownerKind: "depot",
  ownerId: "tarn",
  propellantId: "lox",
  name: id,
  volumeM3: null,
  ullagePercent: 0,
  maximumFillKg: 100_000,
  heelKg: 0,
  reserveKg: 0,
  rank: null,
  ...over,
});

export const carries = (over: Partial<CraftPropellant> = {}): CraftPropellant => ({
  propellantId: "lox",
  capacityKg: 100_000,
  loadKg: 0,
  returnKg: 0,
  kPerDay: 0,
  cKgPerDay: 0,
  residualKg: 0,
  chilldownKg: 0,
  lossFraction: 0,
  rateKgPerDay: null,
  ...over,
});

export const flight = (
  id: string,
  departDay: number,
  arriveDay: number,
  loadedKg: number,
  over: Partial<Entity<"flight">> = {},
): Entity<"flight"> => ({
  id,
  planCaseId: "case",
  key: id,
  name: id,
  craftId: "packhorse-1",
  origin: { kind: "source", sourceId: "ground" },
  depotId: "tarn",
  departAt: day(departDay),
  arriveAt: day(arriveDay),
  berthDays: 2,
  loads: [{ propellantId: "lox", loadedKg }],
  ...freshFlight,
  ...over,
});

export const sortie = (
  id: string,
  loadDay: number,
  loadKg: number,
  over: Partial<Entity<"sortie">> & { readonly returnKg?: number } = {},
): Entity<"sortie"> => {
  const { returnKg = 0, ...row } = over;
  return {
    id,
    planCaseId: "case",
    key: id,
    campaignId: "rim",
    landerId: "heron-1",
    depotId: "tarn",
    name: id,
    loadAt: day(loadDay),
    returnAt: day(loadDay + 10),
    demand: { kind: "stated", lines: [{ propellantId: "lox", loadKg, returnKg }] },
    ...freshSortie,
    ...row,
  };
};

export const lossPeriod = (
  id: string,
  tankId: string,
  kPerDay: number,
  cKgPerDay: number,
  fromDay: number | null = null,
  untilDay: number | null = null,
): Entity<"lossPeriod"> => ({
  id,
  tankId,
  planCaseId: null,
  fromAt: fromDay === null ? null : day(fromDay),
  untilAt: untilDay === null ? null : day(untilDay),
  basis: { kind: "stated", kPerDay, cKgPerDay },
  reason: "stated",
  note: "",
});

export const depot = (id: string, over: Partial<Entity<"depot">> = {}): Entity<"depot"> => ({
  id,
  name: id,
  orbit: "",
  windowPeriodDays: null,
  windowReferenceAt: null,
  ports: 2,
  note: "",
  windowList: null,
  lunarOrbit: null,
  ...over,
});

export interface SmallPlan {
  readonly tanks?: readonly Entity<"tank">[];
  readonly opening?: Readonly<Record<string, number>>;
  readonly flights?: readonly Entity<"flight">[];
  readonly sorties?: readonly Entity<"sortie">[];
  readonly lossPeriods?: readonly Entity<"lossPeriod">[];
  readonly depots?: readonly Entity<"depot">[];
  readonly tanker?: readonly CraftPropellant[];
  readonly lander?: readonly CraftPropellant[];
  readonly landers?: readonly string[];
  readonly horizonDay?: number;
  readonly shortPolicy?: "stand down" | "wait";
  readonly holdLimitDays?: number;
}

/** A plan of the depot Tarn with one oxygen tank of 100 t, unless told otherwise. */
export const smallPlan = (wanted: SmallPlan): PlanSnapshot => ({
  planCase: {
    id: "case",
    name: "Baseline",
    basedOnId: null,
    shortPolicy: wanted.shortPolicy ?? "stand down",
    horizonAt: day(wanted.horizonDay ?? 365),
    position: 0,
    note: "",
  },
  asOfAt: START,
  horizonAt: day(wanted.horizonDay ?? 365),
  propellants: [
    { id: "lox", name: "Oxygen", symbol: "LOX", fluid: "O2", densityKgPerM3: 1141, position: 0 },
    { id: "lh2", name: "Hydrogen", symbol: "LH2", fluid: "H2", densityKgPerM3: 70.8, position: 1 },
  ],
  depots: wanted.depots ?? [depot("tarn")],
  sources: [{ id: "ground", name: "Ground", kind: "ground", note: "", plant: null }],
  craftClasses: [
    {
      id: "packhorse",
      name: "Packhorse",
      role: "tanker",
      propellants: [...(wanted.tanker ?? [carries()])],
      tripDays: 5,
      berthDays: 2,
      turnaroundDays: 0,
      costPerFlight: null,
      costUnit: "",
      hardwareKg: null,
      lander: null,
      note: "",
    },
    {
      id: "heron",
      name: "Heron",
      role: "lander",
      propellants: [...(wanted.lander ?? [carries()])],
      tripDays: 10,
      berthDays: 0,
      turnaroundDays: 0,
      costPerFlight: null,
      costUnit: "",
      hardwareKg: null,
      lander: null,
      note: "",
    },
  ],
  profiles: [],
  craft: [
    { id: "packhorse-1", classId: "packhorse", name: "Packhorse 1", engineChanges: [], note: "" },
    ...(wanted.landers ?? ["heron-1"]).map((id) => ({ id, classId: "heron", name: id, note: "", engineChanges: [] })),
  ],
  tanks: wanted.tanks ?? [tank("a")],
  lossPeriods: wanted.lossPeriods ?? [],
  campaigns: [
    {
      id: "rim",
      planCaseId: "case",
      key: "rim",
      name: "South Rim Survey",
      goal: "",
      holdLimitDays: wanted.holdLimitDays ?? 30,
    },
  ],
  flights: wanted.flights ?? [],
  sorties: wanted.sorties ?? [],
  riskInputs: [],
  opening: Object.entries(wanted.opening ?? {}).map(([tankId, massKg]) => ({ tankId, massKg })),
});
