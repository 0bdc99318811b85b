/** A ledger small enough to work by hand: one depot with a hydrogen and an oxygen tank, a tanker, a lander, two cases. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll } from "vitest";
import type { Change, EntitySet } from "../../../app/entity/entities.ts";
import { emptyEntitySet } from "../../../app/entity/apply-changes.ts";
import { freshFlight } from "../../../app/entity/flight.ts";
import { freshSortie } from "../../../app/entity/sortie.ts";
import type { Step } from "../../../app/ledger/books.ts";
import type { LedgerStore } from "../../../app/contract/store.ts";
import type { Recorder } from "../../../app/records/recorder.ts";
import { createLedger } from "../../../db/ledger.ts";

export const day = (n: number): number => Date.UTC(2031, 0, 1) + n * 86_400_000;

const line = { chilldownKg: 0, lossFraction: 0, rateKgPerDay: null, kPerDay: 0, cKgPerDay: 0, residualKg: 0 };
const flightOf = (planCaseId: string) => ({
  id: `${planCaseId}.drover-1`,
  planCaseId,
  key: "drover-1",
  name: "Drover 1",
  craftId: "drover",
  origin: { kind: "source" as const, sourceId: "ground" },
  depotId: "mere",
  departAt: day(10),
  arriveAt: day(15),
  berthDays: 2,
  loads: [{ propellantId: "lh2", loadedKg: 500 }],
  ...freshFlight,
});
const sortieOf = (planCaseId: string) => ({
  id: `${planCaseId}.first`,
  planCaseId,
  key: "first",
  campaignId: `${planCaseId}.survey`,
  landerId: "wren",
  depotId: "mere",
  name: "First",
  loadAt: day(30),
  returnAt: day(40),
  demand: { kind: "class" as const },
  ...freshSortie,
});
const caseOf = (id: string, position: number) => ({
  id,
  name: id,
  basedOnId: null,
  shortPolicy: "wait" as const,
  horizonAt: day(400),
  position,
  note: "",
});
const tankOf = (propellantId: string) => ({
  id: `mere-${propellantId}`,
  ownerKind: "depot" as const,
  ownerId: "mere",
  propellantId,
  name: `Mere ${propellantId}`,
  volumeM3: null,
  ullagePercent: 3,
  maximumFillKg: 5000,
  heelKg: 10,
  reserveKg: 100,
  rank: null,
});

export const handPlan: EntitySet = {
  ...emptyEntitySet(),
  propellant: [
    { id: "lh2", name: "Hydrogen", symbol: "LH2", fluid: "H2", densityKgPerM3: 70.8, position: 0 },
    { id: "lox", name: "Oxygen", symbol: "LO2", fluid: "O2", densityKgPerM3: 1141, position: 1 },
  ],
  depot: [
    {
      id: "mere",
      name: "Mere",
      orbit: "low",
      windowPeriodDays: null,
      windowReferenceAt: null,
      ports: 1,
      note: "",
      windowList: null,
      lunarOrbit: null,
    },
  ],
  source: [{ id: "ground", name: "Ground", kind: "ground", note: "", plant: null }],
  craftClass: [
    {
      id: "drover-class",
      name: "Drover",
      role: "tanker",
      propellants: [
        { ...line, propellantId: "lh2", capacityKg: 600, loadKg: 500, returnKg: 0 },
        { ...line, propellantId: "lox", capacityKg: 3000, loadKg: 2500, returnKg: 0 },
      ],
      tripDays: 5,
      berthDays: 2,
      turnaroundDays: 0,
      costPerFlight: null,
      costUnit: "",
      hardwareKg: null,
      note: "",
      lander: null,
    },
    {
      id: "wren-class",
      name: "Wren",
      role: "lander",
      propellants: [
        { ...line, propellantId: "lh2", capacityKg: 400, loadKg: 300, returnKg: 20, kPerDay: 0.02 },
        { ...line, propellantId: "lox", capacityKg: 2000, loadKg: 1500, returnKg: 50 },
      ],
      tripDays: 10,
      berthDays: 0,
      turnaroundDays: 0,
      costPerFlight: null,
      costUnit: "",
      hardwareKg: null,
      note: "",
      lander: null,
    },
  ],
  craft: [
    { id: "drover", classId: "drover-class", name: "Drover", note: "", engineChanges: [] },
    { id: "wren", classId: "wren-class", name: "Wren", note: "", engineChanges: [] },
  ],
  tank: [tankOf("lh2"), tankOf("lox")],
  planCase: [caseOf("base", 0), caseOf("other", 1)],
  lossPeriod: [
    {
      id: "lh2-base",
      tankId: "mere-lh2",
      planCaseId: null,
      fromAt: null,
      untilAt: null,
      basis: { kind: "stated", kPerDay: 0.01, cKgPerDay: 0 },
      reason: "cooler running",
      note: "",
    },
  ],
  campaign: ["base", "other"].map((id) => ({
    id: `${id}.survey`,
    planCaseId: id,
    key: "survey",
    name: "Survey",
    goal: "",
    holdLimitDays: 30,
  })),
  flight: ["base", "other"].map(flightOf),
  sortie: ["base", "other"].map(sortieOf),
};

export const putAll = (plan: EntitySet): Change[] =>
  Object.entries(plan).flatMap(([kind, rows]) => rows.map((value) => ({ op: "put", kind, value }) as Change));

let written = 0;
/** Ids that count up. */
export const recorder: Recorder = { author: "Ada", recordedAt: day(300), newId: () => `n-${(written += 1)}` };

export const stepWith = (part: Partial<Step>): Step => ({
  label: "test",
  reason: "",
  author: "Ada",
  recordedAt: day(300),
  changes: [],
  entries: [],
  readings: [],
  withdrawnReadingIds: [],
  reversedEntryIds: [],
  ...part,
});

/** Opens the books of one tank. */
export const openingOf = (tankId: string, propellantId: string, kg: number, at: number): Step =>
  stepWith({
    label: `Open ${tankId}`,
    entries: [
      {
        id: recorder.newId(),
        at,
        kind: "opening",
        subjectKey: null,
        reversesId: null,
        note: "",
        author: "Ada",
        recordedAt: day(300),
        postings: [
          { account: { kind: "tank", ownerId: tankId }, propellantId, grams: kg * 1000 },
          { account: { kind: "source", ownerId: "ground" }, propellantId, grams: -kg * 1000 },
        ],
      },
    ],
  });

/** A folder that goes away when the file's tests are over. */
export const temporaryFolder = (): string => {
  const folder = mkdtempSync(join(tmpdir(), "coldstock-"));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
};

/** A new ledger with the plan, 1,000 kg of hydrogen and 4,000 kg of oxygen on day 0. */
export const handLedger = (folder: string): LedgerStore => {
  const store = createLedger(join(folder, `hand-${(written += 1)}.coldstock`), { programme: "Hand" });
  store.commit(stepWith({ label: "Plan", changes: putAll(handPlan) }));
  store.commit(openingOf("mere-lh2", "lh2", 1000, day(0)));
  store.commit(openingOf("mere-lox", "lox", 4000, day(0)));
  return store;
};
