/** From what a person wrote to inputs that can be varied: every name found, every value possible, nothing without effect. */
import type { PlanSnapshot } from "../entity/plan.ts";
import { PlanningError } from "../ground/failure.ts";
import { missingCase } from "../ground/missing-case.ts";
import { parseInput } from "../ground/parse-input.ts";
import { type InputAsked, type StudyAsked, studyAsked, studyQuantities } from "./question.ts";
import { reachOf, refuseValues } from "./values.ts";
import type { Varied } from "./varied.ts";
import { cadence, flightDelay, leftOut, type Looks, payload, reliability, slip, transit } from "./vary-flights.ts";
import { cargo, sortieCadence } from "./vary-sorties.ts";
import { coolerOutage, lossFactor, lossRate, tankReserve, tankSize } from "./vary-tanks.ts";

/** Reads a study. Throws "invalid input", in words that name a quantity that is not known. */
export const parseStudy = (input: unknown): StudyAsked => {
  const inputs = (input as { readonly inputs?: unknown } | null)?.inputs;
  if (Array.isArray(inputs))
    for (const [n, one] of inputs.entries()) {
      const quantity: unknown = (one as { readonly quantity?: unknown } | null)?.quantity;
      if (typeof quantity === "string" && !studyQuantities.some((known) => known === quantity))
        throw new PlanningError(
          "invalid input",
          `A study cannot vary “${quantity}”. It can vary: ${studyQuantities.join(", ")}.`,
          `inputs.${n}.quantity`,
        );
    }
  return parseInput(studyAsked, input);
};

/** One input of a plan. Throws "not found" for what the plan does not have and "refused" for what would do nothing. */
export const varied = (plan: PlanSnapshot, input: InputAsked, field: string, looks: Looks): Varied => {
  switch (input.quantity) {
    case "loss factor":
      return lossFactor(plan, input, field);
    case "loss rate":
      return lossRate(plan, input, field);
    case "cooler outage":
      return coolerOutage(plan, input, field);
    case "tank size":
      return tankSize(plan, input, field);
    case "reserve":
      return tankReserve(plan, input, field);
    case "payload":
      return payload(plan, input, field, looks);
    case "transit":
      return transit(plan, input, field, looks);
    case "flight delay":
      return flightDelay(plan, input, field);
    case "cadence":
      return cadence(plan, input, field, looks);
    case "flights left out":
      return leftOut(plan, input, field);
    case "cargo":
      return cargo(plan, input, field);
    case "sortie cadence":
      return sortieCadence(plan, input, field);
    case "reliability":
      return reliability(plan, input, field);
    case "slip":
      return slip(plan, input, field);
    default:
      return missingCase(input);
  }
};

/** The turn in which inputs are laid over a plan, whatever the order in which they are asked. */
const TURN: Readonly<Record<InputAsked["quantity"], number>> = {
  "cooler outage": 0,
  "loss factor": 1,
  "loss rate": 2,
  "tank size": 3,
  reserve: 4,
  payload: 5,
  transit: 6,
  cadence: 7,
  "flight delay": 8,
  "flights left out": 9,
  cargo: 10,
  "sortie cadence": 11,
  reliability: 12,
  slip: 13,
};

const sayLimits = (row: Varied, value: number): string =>
  `${row.words} cannot be ${value}${row.unit === "" ? "" : ` ${row.unit}`}. ${row.whyLimits}`;

/** Throws "invalid input" or "refused" where a value cannot be. */
export const refuseValue = (row: Varied, value: number, field: string): void => {
  if (!(value >= row.least && value <= row.most))
    throw new PlanningError("invalid input", sayLimits(row, value), field);
  if (row.isWhole === true && !Number.isInteger(value))
    throw new PlanningError("invalid input", `${row.words} is a whole number, not ${value}.`, field);
};

/** Throws "not found", "invalid input" or "refused" in words. */
export const resolveInputs = (plan: PlanSnapshot, asked: StudyAsked): readonly Varied[] => {
  const asks = new Set(asked.ask.map(({ kind }) => kind));
  const looks = { asksResupply: asks.has("resupply") };
  if (asks.size < asked.ask.length)
    throw new PlanningError("invalid input", "The same is asked twice at each point.", "ask");
  const written = new Map<string, string>();
  return asked.inputs.map((input, n) => {
    const field = `inputs.${n}`;
    const row = varied(plan, input, field, looks);
    refuseValues(input.values, row.words, `${field}.values`);
    if (row.isForRisk === true && !asks.has("risk"))
      throw new PlanningError(
        "refused",
        `The ${row.words} has no part in what is asked: only a run of the risk takes notice of it. Ask for {"kind": "risk"} too.`,
        field,
      );
    if (row.isWhole === true && input.values.kind !== "list" && asked.design.kind !== "grid")
      throw new PlanningError(
        "invalid input",
        `The number of ${row.words} is whole: give a list of its values, not a ${input.values.kind}.`,
        `${field}.values`,
      );
    const { least, most } = reachOf(input.values);
    if (input.values.kind === "list" || input.values.kind === "range" || input.values.kind === "triangular") {
      refuseValue({ ...row, isWhole: false }, least, `${field}.values`);
      refuseValue({ ...row, isWhole: false }, most, `${field}.values`);
    } else if (least < row.least || most > row.most) {
      // The tails of a distribution are cut where the quantity ends, and that is to be stated.
      const open =
        input.values.kind === "normal" ? 'Give "least" and "most" within that.' : "Use another distribution.";
      if (!(input.values.kind === "log-normal" && row.least <= 0 && row.most >= 1000))
        throw new PlanningError(
          "invalid input",
          `This distribution of ${row.words} has values that cannot be. ${row.whyLimits} ${open}`,
          `${field}.values`,
        );
    }
    for (const place of row.writes) {
      const other = written.get(place);
      if (other !== undefined)
        throw new PlanningError(
          "invalid input",
          other === row.words
            ? `The ${row.words} is varied twice.`
            : `The ${row.words} and the ${other} change the same thing: only one of them can be varied.`,
          field,
        );
      written.set(place, row.words);
    }
    return row;
  });
};

/** Indices of the inputs in the order in which they are laid over the plan. */
export const layingOrder = (asked: StudyAsked): readonly number[] =>
  asked.inputs
    .map((_, n) => n)
    .toSorted((a, b) => {
      const turn = (n: number): number => TURN[(asked.inputs[n] as InputAsked).quantity];
      return turn(a) - turn(b) || a - b;
    });
