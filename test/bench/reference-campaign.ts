/** The reference campaign of the benches: 5 years, 3 propellants, 120 flights, 40 sorties, 20 rate changes. Seeded. */
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { Entity } from "../../app/entity/entities.ts";
import type { CraftPropellant } from "../../app/entity/craft.ts";
import { freshFlight } from "../../app/entity/flight.ts";
import { freshSortie } from "../../app/entity/sortie.ts";
import { chance } from "./chance.ts";

const DAY = 86_400_000;
const START = Date.UTC(2031, 0, 1);
const day = (days: number): number => START + Math.round(days * DAY);

/** kg of each propellant that a sortie takes: 40 t and more altogether. */
const SORTIE_LOAD = { lox: 36_000, lh2: 6_500, storable: 900 } as const;
const PROPELLANTS = ["lox", "lh2", "storable"] as const;
type PropellantId = (typeof PROPELLANTS)[number];

const MAXIMUM: Record<PropellantId, number> = { lox: 90_000, lh2: 16_000, storable: 3_000 };
const RESERVE: Record<PropellantId, number> = { lox: 3_000, lh2: 800, storable: 100 };
const K_PER_DAY: Record<PropellantId, number> = { lox: 0.0002, lh2: 0.0015, storable: 0 };

const carried = (propellantId: PropellantId, over: Partial<CraftPropellant>): CraftPropellant => ({
  propellantId,
  capacityKg: SORTIE_LOAD[propellantId] * 1.1,
  loadKg: 0,
  returnKg: 0,
  kPerDay: K_PER_DAY[propellantId] * 2,
  cKgPerDay: 0,
  residualKg: 0,
  chilldownKg: 25,
  lossFraction: 0.005,
  rateKgPerDay: null,
  ...over,
});

export interface CampaignShape {
  readonly flights: number;
  readonly sorties: number;
  readonly rateChanges: number;
  readonly years: number;
  /** Metered instead of at-once handover, kg/day. */
  readonly rateKgPerDay?: number;
  readonly shortPolicy?: "stand down" | "wait";
  /** Supply over demand; 1.08 keeps most sorties supplied, 1.0 makes many short. */
  readonly plenty?: number;
}

export const REFERENCE: CampaignShape = { flights: 120, sorties: 40, rateChanges: 20, years: 5 };

/** A campaign of a shape; the same seed gives the same plan. */
export const campaign = (shape: CampaignShape, seed = 1): PlanSnapshot => {
  const next = chance(seed);
  const days = shape.years * 365.25;
  const horizonAt = day(days);
  const flightsEvery = (days - 40) / shape.flights;
  const plenty = shape.plenty ?? 1.08;
  const flights = Array.from({ length: shape.flights }, (_, index): Entity<"flight"> => {
    const departDay = index * flightsEvery + next() * flightsEvery * 0.8;
    return {
      id: `f${String(index).padStart(3, "0")}`,
      planCaseId: "case",
      key: `f${index}`,
      name: `Packhorse ${index + 1}`,
      craftId: "packhorse-1",
      origin: { kind: "source", sourceId: "ground" },
      depotId: "tarn",
      departAt: day(departDay),
      arriveAt: day(departDay + 5),
      berthDays: 3,
      loads: PROPELLANTS.map((propellantId) => ({
        propellantId,
        loadedKg: (SORTIE_LOAD[propellantId] * plenty * shape.sorties) / shape.flights,
      })),
      ...freshFlight,
    };
  });
  const sortiesEvery = (days - 80) / shape.sorties;
  const sorties = Array.from({ length: shape.sorties }, (_, index): Entity<"sortie"> => {
    const loadDay = 30 + (index + 0.5) * sortiesEvery + (next() - 0.5) * sortiesEvery * 0.3;
    return {
      id: `s${String(index).padStart(3, "0")}`,
      planCaseId: "case",
      key: `s${index}`,
      campaignId: "rim",
      landerId: "heron-1",
      depotId: "tarn",
      name: `Sortie ${index + 1}`,
      loadAt: day(loadDay),
      returnAt: day(loadDay + 14),
      demand: { kind: "class" },
      ...freshSortie,
    };
  });
  const outages = Array.from({ length: Math.floor(shape.rateChanges / 2) }, (_, index): Entity<"lossPeriod"> => {
    const fromDay = ((index + next()) * days) / (shape.rateChanges / 2 + 1);
    return {
      id: `o${index}`,
      tankId: index % 2 === 0 ? "tank-lh2" : "tank-lox",
      planCaseId: null,
      fromAt: day(fromDay),
      untilAt: day(fromDay + 5 + next() * 20),
      basis: { kind: "stated", kPerDay: index % 2 === 0 ? 0.005 : 0.001, cKgPerDay: 0 },
      reason: "cooler outage",
      note: "",
    };
  });
  return {
    planCase: {
      id: "case",
      name: "Reference",
      basedOnId: null,
      shortPolicy: shape.shortPolicy ?? "stand down",
      horizonAt,
      position: 0,
      note: "",
    },
    asOfAt: START,
    horizonAt,
    propellants: [
      { id: "lox", name: "Oxygen", symbol: "LOX", fluid: "O2", densityKgPerM3: 1141, position: 0 },
      { id: "lh2", name: "Hydrogen", symbol: "LH2", fluid: "H2", densityKgPerM3: 70.8, position: 1 },
      { id: "storable", name: "Storable", symbol: "STO", fluid: null, densityKgPerM3: 1008, position: 2 },
    ],
    depots: [
      {
        id: "tarn",
        name: "Tarn",
        orbit: "near-rectilinear halo, 9:2",
        windowPeriodDays: 6.56235,
        windowReferenceAt: START,
        ports: 2,
        note: "",
        windowList: null,
        lunarOrbit: null,
      },
    ],
    sources: [{ id: "ground", name: "Ground", kind: "ground", note: "", plant: null }],
    craftClasses: [
      {
        id: "packhorse",
        name: "Packhorse",
        role: "tanker",
        propellants: PROPELLANTS.map((id) => carried(id, { rateKgPerDay: shape.rateKgPerDay ?? null })),
        tripDays: 5,
        berthDays: 3,
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
        propellants: PROPELLANTS.map((id) =>
          carried(id, { loadKg: SORTIE_LOAD[id], returnKg: SORTIE_LOAD[id] * 0.02 }),
        ),
        tripDays: 14,
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
      { id: "heron-1", classId: "heron", name: "Heron 1", engineChanges: [], note: "" },
    ],
    tanks: PROPELLANTS.map((id) => ({
      id: `tank-${id}`,
      ownerKind: "depot" as const,
      ownerId: "tarn",
      propellantId: id,
      name: `Tarn ${id}`,
      volumeM3: null,
      ullagePercent: 0,
      maximumFillKg: MAXIMUM[id],
      heelKg: RESERVE[id] * 0.2,
      reserveKg: RESERVE[id],
      rank: null,
    })),
    lossPeriods: [
      ...PROPELLANTS.map((id) => ({
        id: `base-${id}`,
        tankId: `tank-${id}`,
        planCaseId: null,
        fromAt: null,
        untilAt: null,
        basis: { kind: "stated" as const, kPerDay: K_PER_DAY[id], cKgPerDay: 0 },
        reason: "cooler running",
        note: "",
      })),
      ...outages,
    ],
    campaigns: [{ id: "rim", planCaseId: "case", key: "rim", name: "South Rim Survey", goal: "", holdLimitDays: 30 }],
    flights,
    sorties,
    riskInputs: [],
    opening: PROPELLANTS.map((id) => ({ tankId: `tank-${id}`, massKg: MAXIMUM[id] * 0.5 })),
  };
};

/** The reference campaign itself. */
export const referenceCampaign = (): PlanSnapshot => campaign(REFERENCE);
