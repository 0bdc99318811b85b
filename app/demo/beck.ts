/** The second, small demonstration: the methane depot Beck in low lunar orbit, the lander Dunlin, the tanker Cob. Invented. */
import type { LedgerDocument } from "../ledger/ledger-view.ts";
import type { Entity } from "../entity/entities.ts";
import { freshFlight } from "../entity/flight.ts";
import { freshSortie } from "../entity/sortie.ts";
import { DAY_MS } from "../ground/quantity.ts";

const AS_OF_AT = Date.parse("2032-03-01T00:00:00Z");
const dayAt = (offset: number): number => AS_OF_AT + offset * DAY_MS;
const percentPerDay = (percent: number): number => -Math.log1p(-percent / 100);

type ClassLine = Entity<"craftClass">["propellants"][number];
type Role = Pick<ClassLine, "capacityKg" | "loadKg" | "returnKg" | "residualKg">;

const line = (propellantId: string, lossPercentPerDay: number, role: Role): ClassLine => ({
  propellantId,
  ...role,
  kPerDay: percentPerDay(lossPercentPerDay),
  cKgPerDay: 0,
  chilldownKg: 12,
  lossFraction: 0.002,
  rateKgPerDay: null,
});

const tank = (propellantId: string, name: string, volumeM3: number, maximumFillKg: number): Entity<"tank"> => ({
  id: `beck-${propellantId}`,
  ownerKind: "depot",
  ownerId: "beck",
  propellantId,
  name,
  volumeM3,
  ullagePercent: 4,
  maximumFillKg,
  heelKg: Math.round(maximumFillKg * 0.01),
  reserveKg: Math.round(maximumFillKg * 0.05),
  rank: null,
});

const rate = (propellantId: string, percent: number): Entity<"lossPeriod"> => ({
  id: `beck-${propellantId}-base`,
  tankId: `beck-${propellantId}`,
  planCaseId: null,
  fromAt: null,
  untilAt: null,
  basis: { kind: "stated", kPerDay: percentPerDay(percent), cKgPerDay: 0 },
  reason: "passive, shaded attitude",
  note: "",
});

const flight = (n: number, arrives: number): Entity<"flight"> => ({
  id: `cob-${n}`,
  planCaseId: "first-plan",
  key: `cob-${n}`,
  name: `Cob ${n}`,
  craftId: "cob-a",
  origin: { kind: "source", sourceId: "ground" },
  depotId: "beck",
  departAt: dayAt(arrives - 5),
  arriveAt: dayAt(arrives),
  berthDays: 2,
  loads: [
    { propellantId: "methane", loadedKg: 4200 },
    { propellantId: "oxygen", loadedKg: 14_800 },
  ],
  ...freshFlight,
});

const sortie = (n: number, loads: number): Entity<"sortie"> => ({
  id: `sortie-${n}`,
  planCaseId: "first-plan",
  key: `sortie-${n}`,
  campaignId: "north-shelf",
  landerId: "dunlin-1",
  depotId: "beck",
  name: `Sortie ${n}`,
  loadAt: dayAt(loads),
  returnAt: dayAt(loads + 10),
  demand: { kind: "class" },
  ...freshSortie,
});

const opening = (propellantId: string, grams: number) => ({
  id: `opening-${propellantId}`,
  at: AS_OF_AT,
  kind: "opening" as const,
  subjectKey: null,
  reversesId: null,
  note: "Commissioning load.",
  author: "demonstration",
  recordedAt: AS_OF_AT,
  postings: [
    { account: { kind: "tank" as const, ownerId: `beck-${propellantId}` }, propellantId, grams },
    { account: { kind: "source" as const, ownerId: "ground" }, propellantId, grams: -grams },
  ],
});

/** The whole ledger, the same every time. */
export const demoBeck = (): LedgerDocument => ({
  format: "coldstock-ledger",
  version: 1,
  programme: "Beck trial (demonstration)",
  isDemonstration: true,
  asOfAt: null,
  entities: {
    propellant: [
      { id: "methane", name: "Methane", symbol: "LCH4", fluid: "CH4", densityKgPerM3: 422.356, position: 0 },
      { id: "oxygen", name: "Oxygen", symbol: "LOX", fluid: "O2", densityKgPerM3: 1141.172, position: 1 },
    ],
    depot: [
      {
        id: "beck",
        name: "Beck",
        orbit: "low lunar orbit, 100 km",
        windowPeriodDays: null,
        windowReferenceAt: null,
        ports: 1,
        note: "Invented for the demonstration.",
        windowList: null,
        lunarOrbit: null,
      },
    ],
    source: [{ id: "ground", name: "Ground", kind: "ground", note: "", plant: null }],
    craftClass: [
      {
        id: "cob",
        name: "Cob",
        role: "tanker",
        propellants: [
          line("methane", 0.05, { capacityKg: 4500, loadKg: 4200, returnKg: 0, residualKg: 25 }),
          line("oxygen", 0.05, { capacityKg: 16_000, loadKg: 14_800, returnKg: 0, residualKg: 80 }),
        ],
        tripDays: 5,
        berthDays: 2,
        turnaroundDays: 0,
        costPerFlight: null,
        costUnit: "",
        hardwareKg: null,
        note: "Invented.",
        lander: null,
      },
      {
        id: "dunlin",
        name: "Dunlin",
        role: "lander",
        propellants: [
          line("methane", 0.08, { capacityKg: 4600, loadKg: 4100, returnKg: 120, residualKg: 0 }),
          line("oxygen", 0.08, { capacityKg: 16_000, loadKg: 14_300, returnKg: 400, residualKg: 0 }),
        ],
        tripDays: 10,
        berthDays: 0,
        turnaroundDays: 0,
        costPerFlight: null,
        costUnit: "",
        hardwareKg: null,
        note: "Invented.",
        lander: null,
      },
    ],
    profile: [],
    craft: [
      { id: "cob-a", classId: "cob", name: "Cob hull A", note: "", engineChanges: [] },
      { id: "dunlin-1", classId: "dunlin", name: "Dunlin 1", note: "", engineChanges: [] },
    ],
    tank: [tank("methane", "Beck methane", 26, 10_000), tank("oxygen", "Beck oxygen", 33, 35_000)],
    planCase: [
      {
        id: "first-plan",
        name: "First plan",
        basedOnId: null,
        shortPolicy: "wait",
        horizonAt: dayAt(300),
        position: 0,
        note: "",
      },
    ],
    lossPeriod: [rate("methane", 0.03), rate("oxygen", 0.025)],
    campaign: [
      {
        id: "north-shelf",
        planCaseId: "first-plan",
        key: "north-shelf",
        name: "North Shelf",
        goal: "Three trial landings",
        holdLimitDays: 45,
      },
    ],
    flight: [flight(1, 40), flight(2, 115), flight(3, 200)],
    sortie: [sortie(1, 60), sortie(2, 135), sortie(3, 225)],
    riskInput: [],
  },
  entries: [opening("methane", 2_600_000), opening("oxygen", 9_000_000)],
  readings: [],
  reportIssues: [],
});
