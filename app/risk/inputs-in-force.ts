/** Which input holds for what: the narrowest that is stated, else the default; and how many of them are assumed. */
import { missingCase } from "../ground/missing-case.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import { isAhead } from "../forecast/compile-flights.ts";
import type { Entity } from "../entity/entities.ts";
import { type Quantity, type Uncertainty, quantities } from "../entity/risk-input.ts";
import type { Reading } from "../ledger/journal.ts";
import { defaultInputs } from "./default-inputs.ts";

/** One input that holds for something of the plan. */
export interface InputInForce {
  /** Of the stated row; "default:flight slip"; or "reading:<tank id>". */
  readonly inputId: string;
  readonly uncertainty: Uncertainty;
  /** null: assumed. */
  readonly source: string | null;
  /** Why it is so: the row's note, or the default's reason. */
  readonly why: string;
  readonly isDefault: boolean;
  /** The flights, sorties, tanks or classes that it holds for. */
  readonly subjectIds: readonly string[];
}

type Law<Q extends Quantity> = Extract<Uncertainty, { quantity: Q }>["law"];

/** The law of one subject and the id of the input that says so. */
export interface LawInForce<Q extends Quantity> {
  readonly inputId: string;
  readonly law: Law<Q>;
  /** What a draw that is shared by many hangs on: the id of the class or flight that the input is stated of, or "every". */
  readonly sharedKey: string;
}

export interface RiskInputs {
  readonly list: readonly InputInForce[];
  /** Subject: the id of a flight, sortie, tank or (groundings) craft class. */
  lawOf<Q extends Quantity>(quantity: Q, subjectId: string): LawInForce<Q>;
}

interface Candidate {
  readonly inputId: string;
  readonly uncertainty: Uncertainty;
  readonly source: string | null;
  readonly why: string;
  readonly isDefault: boolean;
}

const statedOf = (row: Entity<"riskInput">): Candidate => ({
  inputId: row.id,
  uncertainty: row.uncertainty,
  source: row.source,
  why: row.note,
  isDefault: false,
});

const defaultOf = (quantity: Quantity): Candidate => ({
  inputId: `default:${quantity}`,
  uncertainty: defaultInputs[quantity].uncertainty,
  source: null,
  why: defaultInputs[quantity].why,
  isDefault: true,
});

/** What of a ledger's readings a run may hang on: those that the books took. */
export const countedReadings = (readings: readonly Reading[]): readonly Reading[] =>
  readings.filter((row) => !row.isWithdrawn && row.entryId !== null);

/** The reading that the books of a tank last took, by the as-of instant. */
const lastReading = (readings: readonly Reading[], tankId: string, asOfAt: number): Reading | undefined =>
  countedReadings(readings)
    .filter((row) => row.tankId === tankId && row.at <= asOfAt)
    .toSorted((a, b) => a.at - b.at || (a.id < b.id ? -1 : 1))
    .at(-1);

const readingOf = (reading: Reading): Candidate => ({
  inputId: `reading:${reading.tankId}`,
  uncertainty: {
    quantity: "opening level",
    of: { kind: "tank", tankId: reading.tankId },
    law: { kind: "mass", sigmaKg: reading.sigmaKg },
  },
  source: `gauge reading of ${new Date(reading.at).toISOString().slice(0, 10)}`,
  why: "The uncertainty of the last reading that the books took.",
  isDefault: true,
});

/** The ids under which an input may be stated for a subject, the narrowest first. */
const scopesOf = (plan: PlanSnapshot): ((quantity: Quantity, subjectId: string) => readonly string[]) => {
  const classOfCraft = new Map(plan.craft.map((row) => [row.id, row.classId]));
  const classOfFlight = new Map(plan.flights.map((row) => [row.id, classOfCraft.get(row.craftId) ?? ""]));
  return (_quantity, subjectId) => [subjectId, classOfFlight.get(subjectId) ?? "", "every"];
};

const scopeOf = ({ of }: Uncertainty): string => {
  switch (of.kind) {
    case "every":
      return "every";
    case "craft class":
      return of.craftClassId;
    case "flight":
      return of.flightId;
    case "sortie":
      return of.sortieId;
    case "tank":
      return of.tankId;
    default:
      return missingCase(of);
  }
};

/** What is drawn for each quantity: flights and sorties ahead, depot tanks, classes that fly. */
export const subjectsOf = (plan: PlanSnapshot): { readonly [Q in Quantity]: readonly string[] } => {
  const flights = plan.flights.filter(isAhead).map((row) => row.id);
  const notDeparted = plan.flights.filter((row) => isAhead(row) && row.status !== "departed").map((row) => row.id);
  const sorties = plan.sorties
    .filter((row) => row.status === "planned" && row.loadAt <= plan.horizonAt)
    .map((row) => row.id);
  const depotTanks = plan.tanks.filter((row) => row.ownerKind === "depot").map((row) => row.id);
  const classOfCraft = new Map(plan.craft.map((row) => [row.id, row.classId]));
  const classes = new Set(plan.flights.filter(isAhead).map((row) => classOfCraft.get(row.craftId) ?? ""));
  return {
    "flight slip": notDeparted,
    "flight loss": flights,
    grounding: [...classes].filter((id) => id !== "").toSorted(),
    "transfer loss": flights,
    "sortie slip": sorties,
    "sortie demand": sorties,
    "boil-off": depotTanks,
    cooler: depotTanks,
    "opening level": depotTanks,
  };
};

/** The inputs that hold for a plan; `readings`: those of its tanks. */
export const inputsInForce = (plan: PlanSnapshot, readings: readonly Reading[]): RiskInputs => {
  const stated = new Map(
    plan.riskInputs.map((row) => [`${row.uncertainty.quantity}/${scopeOf(row.uncertainty)}`, row]),
  );
  const scopes = scopesOf(plan);
  const find = (quantity: Quantity, subjectId: string): Candidate => {
    const [narrowest = subjectId, ...wider] = scopes(quantity, subjectId);
    const own = stated.get(`${quantity}/${narrowest}`);
    if (own !== undefined) return statedOf(own);
    const reading = quantity === "opening level" ? lastReading(readings, subjectId, plan.asOfAt) : undefined;
    if (reading !== undefined) return readingOf(reading);
    const row = wider.map((scope) => stated.get(`${quantity}/${scope}`)).find((found) => found !== undefined);
    return row === undefined ? defaultOf(quantity) : statedOf(row);
  };
  const held = new Map<string, InputInForce & { readonly subjectIds: string[] }>();
  const bySubject = new Map<string, Candidate>();
  const subjects = subjectsOf(plan);
  for (const quantity of quantities)
    for (const subjectId of subjects[quantity]) {
      const found = find(quantity, subjectId);
      bySubject.set(`${quantity}/${subjectId}`, found);
      const known = held.get(found.inputId);
      if (known === undefined) held.set(found.inputId, { ...found, subjectIds: [subjectId] });
      else known.subjectIds.push(subjectId);
    }
  return {
    list: [...held.values()],
    lawOf: <Q extends Quantity>(quantity: Q, subjectId: string): LawInForce<Q> => {
      const found = bySubject.get(`${quantity}/${subjectId}`) ?? defaultOf(quantity);
      return {
        inputId: found.inputId,
        law: found.uncertainty.law as Law<Q>,
        sharedKey: scopeOf(found.uncertainty),
      };
    },
  };
};
