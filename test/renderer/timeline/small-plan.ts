/** A plan small enough to see whole, made in code: one depot, two propellants, three flights, two sorties, one reading. */
import type { PlanView } from "../../../app/ledger/ledger-view.ts";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import { type Flight, freshFlight } from "../../../app/entity/flight.ts";
import { type Sortie, freshSortie } from "../../../app/entity/sortie.ts";
import { type CaseForecast, forecastCase } from "../../../renderer/state/case-forecast.ts";

const DAY = 86_400_000;
export const start = Date.UTC(2031, 0, 1);
/** An instant so many days after the as-of one. */
export const day = (days: number): number => start + days * DAY;

const flight = (number: number, departDay: number, more: Partial<Flight> = {}): Flight => ({
  id: `flight-${number}`,
  planCaseId: "baseline",
  key: `flight-${number}`,
  name: `Wagon ${number}`,
  craftId: "wagon",
  origin: { kind: "source", sourceId: "ground" },
  depotId: "shelf",
  departAt: day(departDay),
  arriveAt: day(departDay + 10),
  berthDays: 5,
  loads: [
    { propellantId: "hydrogen", loadedKg: 3000 },
    { propellantId: "oxygen", loadedKg: 12_000 },
  ],
  ...freshFlight,
  ...more,
});

const sortie = (number: number, loadDay: number): Sortie => ({
  id: `sortie-${number}`,
  planCaseId: "baseline",
  key: `sortie-${number}`,
  campaignId: "ridge",
  landerId: "egret-1",
  depotId: "shelf",
  name: `Sortie ${number}`,
  loadAt: day(loadDay),
  returnAt: day(loadDay + 14),
  demand: {
    kind: "stated",
    lines: [
      { propellantId: "hydrogen", loadKg: 4000, returnKg: 0 },
      { propellantId: "oxygen", loadKg: 20_000, returnKg: 0 },
    ],
  },
  ...freshSortie,
});

const craftLine = (propellantId: string, capacityKg: number, loadKg: number) => ({
  propellantId,
  capacityKg,
  loadKg,
  returnKg: 0,
  kPerDay: 0,
  cKgPerDay: 0,
  residualKg: 0,
  chilldownKg: 0,
  lossFraction: 0,
  rateKgPerDay: null,
});

const tank = (propellantId: string, maximumFillKg: number, heelKg: number, reserveKg: number) => ({
  id: `${propellantId}-tank`,
  ownerKind: "depot" as const,
  ownerId: "shelf",
  propellantId,
  name: `${propellantId} tank`,
  volumeM3: null,
  ullagePercent: 3,
  maximumFillKg,
  heelKg,
  reserveKg,
  rank: null,
});

/** The plan of the tests; parts may be put in place of it. */
export const smallPlan = (more: Partial<PlanSnapshot> = {}): PlanSnapshot => ({
  planCase: {
    id: "baseline",
    name: "Baseline",
    basedOnId: null,
    shortPolicy: "stand down",
    horizonAt: day(200),
    position: 0,
    note: "",
  },
  asOfAt: start,
  horizonAt: day(200),
  propellants: [
    { id: "hydrogen", name: "Hydrogen", symbol: "LH2", fluid: "H2", densityKgPerM3: 70.8, position: 0 },
    { id: "oxygen", name: "Oxygen", symbol: "LOX", fluid: "O2", densityKgPerM3: 1141, position: 1 },
  ],
  depots: [
    {
      id: "shelf",
      name: "Shelf",
      orbit: "low lunar",
      windowPeriodDays: null,
      windowReferenceAt: null,
      ports: 1,
      note: "",
      windowList: null,
      lunarOrbit: null,
    },
  ],
  sources: [{ id: "ground", name: "Ground", kind: "ground", note: "", plant: null }],
  craftClasses: [
    {
      id: "wagon-class",
      name: "Wagon",
      role: "tanker",
      propellants: [craftLine("hydrogen", 3000, 3000), craftLine("oxygen", 12_000, 12_000)],
      tripDays: 10,
      berthDays: 5,
      turnaroundDays: 0,
      costPerFlight: null,
      costUnit: "",
      hardwareKg: null,
      note: "",
      lander: null,
    },
    {
      id: "egret",
      name: "Egret",
      role: "lander",
      propellants: [craftLine("hydrogen", 5000, 4000), craftLine("oxygen", 25_000, 20_000)],
      tripDays: 14,
      berthDays: 0,
      turnaroundDays: 0,
      costPerFlight: null,
      costUnit: "",
      hardwareKg: null,
      note: "",
      lander: null,
    },
  ],
  profiles: [],
  craft: [
    { id: "wagon", classId: "wagon-class", name: "Wagon", note: "", engineChanges: [] },
    { id: "egret-1", classId: "egret", name: "Egret 1", note: "", engineChanges: [] },
  ],
  tanks: [tank("hydrogen", 8000, 100, 800), tank("oxygen", 40_000, 400, 2000)],
  lossPeriods: [
    {
      id: "hydrogen-loss",
      tankId: "hydrogen-tank",
      planCaseId: null,
      fromAt: null,
      untilAt: null,
      basis: { kind: "stated", kPerDay: 0.002, cKgPerDay: 0 },
      reason: "cooler running",
      note: "",
    },
  ],
  campaigns: [{ id: "ridge", planCaseId: "baseline", key: "ridge", name: "Ridge", goal: "", holdLimitDays: 30 }],
  flights: [flight(1, 10), flight(2, 60, { status: "firm" }), flight(3, 62)],
  sorties: [sortie(1, 40), sortie(2, 110)],
  riskInputs: [],
  opening: [
    { tankId: "hydrogen-tank", massKg: 4000 },
    { tankId: "oxygen-tank", massKg: 15_000 },
  ],
  ...more,
});

export const smallView = (plan: PlanSnapshot): PlanView => ({
  revision: 1,
  plan,
  past: [
    {
      tankId: "hydrogen-tank",
      segments: [{ startAt: day(-30), endAt: start, m0Kg: 4247, kPerDay: 0.002, cKgPerDay: 0, fKgPerDay: 0 }],
    },
    {
      tankId: "oxygen-tank",
      segments: [{ startAt: day(-30), endAt: start, m0Kg: 15_000, kPerDay: 0, cKgPerDay: 0, fKgPerDay: 0 }],
    },
  ],
  readings: [
    {
      id: "reading-1",
      tankId: "hydrogen-tank",
      at: day(-10),
      massKg: 4100,
      sigmaKg: 120,
      entryId: null,
      isWithdrawn: false,
      note: "",
    },
  ],
});

export const smallCase = (more: Partial<PlanSnapshot> = {}): CaseForecast => forecastCase(smallView(smallPlan(more)));
