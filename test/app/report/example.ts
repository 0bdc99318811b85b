/** A small invented report context: one depot, two propellants, two sorties of which one is short. */
import { composeStatements } from "../../../app/losses/statement.ts";
import type { ReportContext } from "../../../app/report/context.ts";
import { allSectionIds } from "../../../app/report/sections.ts";
import type { Entity } from "../../../app/entity/entities.ts";
import { freshFlight } from "../../../app/entity/flight.ts";
import { freshSortie } from "../../../app/entity/sortie.ts";

const day = 86_400_000;
const asOfAt = Date.UTC(2031, 0, 1);
const tank = (id: string, propellantId: string, maximumFillKg: number): Entity<"tank"> => ({
  id,
  ownerKind: "depot",
  ownerId: "tarn",
  propellantId,
  name: `Tank ${id}`,
  volumeM3: null,
  ullagePercent: 5,
  maximumFillKg,
  heelKg: 200,
  reserveKg: 1500,
  rank: null,
});
const history = (tankId: string, m0Kg: number, kPerDay: number) => ({
  tankId,
  segments: [
    { startAt: asOfAt, endAt: asOfAt + 60 * day, m0Kg, kPerDay, cKgPerDay: 0, fKgPerDay: 0 },
    { startAt: asOfAt + 60 * day, endAt: asOfAt + 200 * day, m0Kg: m0Kg * 1.5, kPerDay, cKgPerDay: 0, fKgPerDay: 0 },
  ],
});
const sortie = (n: number, demandKg: number): Entity<"sortie"> => ({
  id: `sortie-${n}`,
  planCaseId: "base",
  key: `sortie-${n}`,
  campaignId: "survey",
  landerId: "heron-1",
  depotId: "tarn",
  name: `Sortie ${n}`,
  loadAt: asOfAt + n * 70 * day,
  returnAt: asOfAt + (n * 70 + 20) * day,
  demand: { kind: "stated", lines: [{ propellantId: "hydrogen", loadKg: demandKg, returnKg: 0 }] },
  ...freshSortie,
});

export const exampleContext = (): ReportContext => ({
  programme: "Example programme",
  isDemonstration: true,
  author: "A. Planner",
  issuedAt: asOfAt,
  issueNumber: 3,
  note: "Readiness review",
  inputHash: "0123456789abcdef".repeat(4),
  books: { entries: 41, digest: "fedcba9876543210".repeat(4) },
  since: null,
  choices: {
    fromAt: asOfAt - 30 * day,
    untilAt: asOfAt + 200 * day,
    massUnit: "t",
    paper: "A4",
    sectionIds: allSectionIds,
  },
  main: {
    forecast: [history("h", 6000, 0.002), history("o", 31_000, 0.0002)],
    view: {
      revision: 7,
      past: [
        {
          tankId: "h",
          segments: [
            { startAt: asOfAt - 30 * day, endAt: asOfAt, m0Kg: 6300, kPerDay: 0.002, cKgPerDay: 0, fKgPerDay: 0 },
          ],
        },
      ],
      readings: [
        {
          id: "r1",
          tankId: "h",
          at: asOfAt - 10 * day,
          massKg: 6110,
          sigmaKg: 60,
          entryId: null,
          isWithdrawn: false,
          note: "",
        },
      ],
      plan: {
        planCase: {
          id: "base",
          name: "Baseline",
          basedOnId: null,
          shortPolicy: "stand down",
          horizonAt: asOfAt + 200 * day,
          position: 0,
          note: "",
        },
        asOfAt,
        horizonAt: asOfAt + 200 * day,
        propellants: [
          { id: "hydrogen", name: "Hydrogen", symbol: "LH2", fluid: "H2", densityKgPerM3: 70.8, position: 0 },
          { id: "oxygen", name: "Oxygen", symbol: "LOX", fluid: "O2", densityKgPerM3: 1141, position: 1 },
        ],
        depots: [
          {
            id: "tarn",
            name: "Tarn",
            orbit: "halo",
            windowPeriodDays: 6.56235,
            windowReferenceAt: asOfAt,
            ports: 2,
            note: "",
            windowList: null,
            lunarOrbit: null,
          },
        ],
        sources: [{ id: "ground", name: "Ground", kind: "ground", note: "", plant: null }],
        craftClasses: [],
        profiles: [],
        craft: [],
        tanks: [tank("h", "hydrogen", 12_000), tank("o", "oxygen", 60_000)],
        lossPeriods: [
          {
            id: "h-base",
            tankId: "h",
            planCaseId: null,
            fromAt: null,
            untilAt: null,
            basis: { kind: "stated", kPerDay: 0.002, cKgPerDay: 0 },
            reason: "cooler running",
            note: "",
          },
        ],
        campaigns: [],
        flights: [
          {
            id: "f1",
            planCaseId: "base",
            key: "f1",
            name: "Packhorse 1",
            craftId: "packhorse-1",
            origin: { kind: "source", sourceId: "ground" },
            depotId: "tarn",
            departAt: asOfAt + 50 * day,
            arriveAt: asOfAt + 60 * day,
            berthDays: 3,
            loads: [{ propellantId: "hydrogen", loadedKg: 3000 }],
            ...freshFlight,
          },
        ],
        sorties: [sortie(1, 5000), sortie(2, 7000)],
        riskInputs: [],
        opening: [
          { tankId: "h", massKg: 6000 },
          { tankId: "o", massKg: 31_000 },
        ],
      },
    },
    supply: {
      holds: false,
      verdict: {
        word: "No-go",
        sentence:
          "1 of 2 sorties cannot load as planned. Sortie 2 cannot load on 2031-07-21: short by 1.90 t of hydrogen.",
        breaks: ["Sortie 2 cannot load on 2031-07-21: short by 1.90 t of hydrogen."],
        conditions: [],
        notes: ["Packhorse 1 brings nothing that any sortie uses."],
      },
      sorties: [1, 2].map((n) => ({
        sortieId: `sortie-${n}`,
        sortieKey: `sortie-${n}`,
        name: `Sortie ${n}`,
        plannedAt: asOfAt + n * 70 * day,
        loadedAt: n === 1 ? asOfAt + 70 * day : null,
        status: n === 1 ? ("supplied" as const) : ("short" as const),
        outcome: n === 1 ? ("flies" as const) : ("stands down" as const),
        landerIsAway: false,
        limitingPropellantId: "hydrogen",
        firstPossibleAt: null,
        lines: [
          {
            propellantId: "hydrogen",
            availableKg: 8123.456,
            requiredKg: n === 1 ? 5100 : 10_023.4,
            marginOverReserveKg: n === 1 ? 1523.456 : -3199.944,
            marginPercent: n === 1 ? 29.87 : -31.92,
            status: n === 1 ? ("supplied" as const) : ("short" as const),
            missingKg: n === 1 ? 0 : 1899.944,
          },
        ],
      })),
      findings: [{ kind: "unused flight", flightId: "f1" }],
      slack: [{ flightId: "f1", sortieId: "sortie-1", slackDays: 9.25 }],
      jointSlack: [{ classId: "packhorse", flights: 1, slackDays: 9.25 }],
      hinges: [{ sortieId: "sortie-1", flightId: "f1", becomes: "does not fly" }],
      latestDeparture: [{ flightId: "f1", at: asOfAt + 59.25 * day }],
    },
  },
  compared: null,
  risk: null,
  studies: [],
  fits: [],
  losses: {
    revision: 7,
    statements: composeStatements([
      {
        fromAt: asOfAt - 31 * day,
        untilAt: asOfAt,
        depotId: "tarn",
        propellantId: "hydrogen",
        openingGrams: 6_300_000,
        receivedGrams: 0,
        drawnGrams: 0,
        boilOffGrams: 187_654,
        handoverLossGrams: 0,
        ventedGrams: 0,
        unaccountedGrams: 2346,
        closingGrams: 6_110_000,
      },
    ]),
    happened: composeStatements([
      {
        fromAt: asOfAt - 31 * day,
        untilAt: asOfAt,
        depotId: "tarn",
        propellantId: "hydrogen",
        openingGrams: 6_290_000,
        receivedGrams: 0,
        drawnGrams: 0,
        boilOffGrams: 177_654,
        handoverLossGrams: 0,
        ventedGrams: 0,
        unaccountedGrams: 2346,
        closingGrams: 6_110_000,
      },
    ]),
    comparisons: [
      {
        fromAt: asOfAt - 31 * day,
        untilAt: asOfAt,
        depotId: "tarn",
        propellantId: "hydrogen",
        predictedKg: 187.654,
        bookedKg: 190,
        differenceKg: 2.346,
        sigmaKg: 84.85,
        differenceInSigma: 0.0276,
        tanks: [],
      },
    ],
  },
  ledgerId: null,
  calledOff: [],
  changes: [
    {
      id: 1,
      at: asOfAt,
      author: "A. Planner",
      label: "Move Packhorse 1",
      reason: "=1+1 weather",
      state: "done",
    },
  ],
});
