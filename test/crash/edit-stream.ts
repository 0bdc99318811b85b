/** A small ledger, and an endless stream of edits of it of three kinds, each with a trace by which it is found again. */
import type { Reply } from "../../app/ground/failure.ts";
import type { LedgerDocument } from "../../app/ledger/ledger-view.ts";
import type { ServiceChild } from "./service-child.ts";

const START_AT = Date.UTC(2031, 0, 1);
const HOUR_MS = 3_600_000;
/** Enough for every vent of fifty streams. */
const OPENING_GRAMS = 20_000_000_000;

/** Makes the ledger and the things that the edits touch. */
export const makeSmallLedger = async (service: ServiceChild, path: string): Promise<void> => {
  await service.must("ledger.create", { path, programme: "Killed and opened again" });
  const note = "";
  await service.must("plan.edit", {
    label: "Begin",
    reason: "",
    changes: [
      {
        op: "put",
        kind: "propellant",
        value: { id: "lox", name: "Oxygen", symbol: "LOX", fluid: "O2", densityKgPerM3: 1141, position: 0 },
      },
      {
        op: "put",
        kind: "depot",
        value: {
          id: "tarn",
          name: "Tarn",
          orbit: "halo",
          windowPeriodDays: null,
          windowReferenceAt: null,
          ports: 1,
          note,
          windowList: null,
          lunarOrbit: null,
        },
      },
      { op: "put", kind: "source", value: { id: "ground", name: "Ground", kind: "ground", note, plant: null } },
      {
        op: "put",
        kind: "tank",
        value: {
          id: "tarn-lox",
          ownerKind: "depot",
          ownerId: "tarn",
          propellantId: "lox",
          name: "Oxygen tank",
          volumeM3: null,
          ullagePercent: 0,
          maximumFillKg: 100_000_000,
          heelKg: 0,
          reserveKg: 0,
          rank: null,
        },
      },
    ],
  });
  await service.must("record.entry", {
    id: "opening",
    at: START_AT,
    kind: "opening",
    subjectKey: null,
    note,
    postings: [
      { account: { kind: "source", ownerId: "ground" }, propellantId: "lox", grams: -OPENING_GRAMS },
      { account: { kind: "tank", ownerId: "tarn-lox" }, propellantId: "lox", grams: OPENING_GRAMS },
    ],
  });
};

/** Asks for edit number n: a row of the plan, a journal entry or a gauge reading. null: the service has gone. */
export const askEdit = async (service: ServiceChild, n: number): Promise<Reply<unknown> | null> => {
  const at = START_AT + n * HOUR_MS;
  switch (n % 3) {
    case 0:
      return await service.ask("plan.edit", {
        label: `Source ${n}`,
        reason: "",
        changes: [
          {
            op: "put",
            kind: "source",
            value: { id: `s-${n}`, name: `Source ${n}`, kind: "plant", note: "", plant: null },
          },
        ],
      });
    case 1:
      return await service.ask("record.entry", {
        id: `e-${n}`,
        at,
        kind: "vent",
        subjectKey: null,
        note: `Vented ${n} g`,
        postings: [
          { account: { kind: "tank", ownerId: "tarn-lox" }, propellantId: "lox", grams: -n },
          { account: { kind: "vented", ownerId: "tarn" }, propellantId: "lox", grams: n },
        ],
      });
    default:
      return await service.ask("record.reading", {
        id: `r-${n}`,
        tankId: "tarn-lox",
        at,
        massKg: 19_000,
        sigmaKg: 50,
        takeIntoBooks: false,
        note: "",
      });
  }
};

/** The numbers of the edits that a ledger holds, ascending. */
export const editsIn = (document: LedgerDocument): readonly number[] =>
  [
    ...document.entities.source.map((source) => source.id),
    ...document.entries.map((entry) => entry.id),
    ...document.readings.map((reading) => reading.id),
  ]
    .flatMap((id) => /^[ser]-(\d+)$/.exec(id)?.[1] ?? [])
    .map(Number)
    .toSorted((a, b) => a - b);

/** What the tank must hold after the edits of these numbers, grams: the opening less every vent of them. */
export const tankGramsAfter = (numbers: readonly number[]): number =>
  OPENING_GRAMS - numbers.filter((n) => n % 3 === 1).reduce((sum, n) => sum + n, 0);
