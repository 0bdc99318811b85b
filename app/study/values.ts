/** The values of one input: those of a grid, and the one that belongs to a share of its range or distribution. */
import { PlanningError } from "../ground/failure.ts";
import { missingCase } from "../ground/missing-case.ts";
import { normalQuantile } from "../risk/normal.ts";
import type { ValuesAsked } from "./question.ts";

/** Values of a distribution on a grid that says no number. */
const USUAL_COUNT = 9;

/** Says what is wrong with the values themselves. Throws "invalid input". */
export const refuseValues = (values: ValuesAsked, what: string, field: string): void => {
  const refuse = (message: string): never => {
    throw new PlanningError("invalid input", message, field);
  };
  if (values.kind === "range" && values.to < values.from)
    refuse(`The range of ${what} is empty: it goes from ${values.from} to ${values.to}.`);
  if (values.kind === "range" && values.count !== undefined && values.count > 1 && values.from === values.to)
    refuse(`The range of ${what} has ${values.count} values, and all are ${values.from}. Ask for one.`);
  if (values.kind === "range" && values.count === 1 && values.from !== values.to)
    refuse(`One value of ${what} does not make a range from ${values.from} to ${values.to}. Ask for two at least.`);
  if (values.kind === "list" && new Set(values.list).size < values.list.length)
    refuse(`The list of ${what} has a value twice.`);
  if (
    values.kind === "triangular" &&
    !(values.low <= values.mode && values.mode <= values.high && values.low < values.high)
  )
    refuse(`The triangle of ${what} needs low ≤ mode ≤ high, and low below high.`);
  if (values.kind === "normal" && (values.least ?? -Infinity) >= (values.most ?? Infinity))
    refuse(`The normal distribution of ${what} is cut off at both ends with nothing between.`);
};

/** The value below which a share `u` of the input lies, 0 ≤ u < 1; of a list, the entry of that part. */
export const valueAt = (values: ValuesAsked, u: number): number => {
  switch (values.kind) {
    case "list":
      return values.list[Math.min(values.list.length - 1, Math.floor(u * values.list.length))] ?? 0;
    case "range":
      return values.from + (values.to - values.from) * u;
    case "normal": {
      const drawn = values.mean + values.sigma * normalQuantile(inside(u));
      return Math.min(values.most ?? Infinity, Math.max(values.least ?? -Infinity, drawn));
    }
    case "log-normal":
      return values.median * Math.exp(values.sigma * normalQuantile(inside(u)));
    case "triangular": {
      const { low, mode, high } = values;
      const span = high - low;
      const below = (mode - low) / span;
      return u < below ? low + Math.sqrt(u * span * (mode - low)) : high - Math.sqrt((1 - u) * span * (high - mode));
    }
    default:
      return missingCase(values);
  }
};

/** A share that has a quantile. */
const inside = (u: number): number => Math.min(1 - 2 ** -33, Math.max(2 ** -33, u));

/** How many values a grid has of an input. Throws "invalid input" for a range without a number. */
export const gridCount = (values: ValuesAsked, what: string, field: string): number => {
  if (values.kind === "list") return values.list.length;
  if (values.kind === "range" && values.count === undefined) {
    if (values.from === values.to) return 1;
    throw new PlanningError(
      "invalid input",
      `Say how many values of ${what} the grid has ("count").`,
      `${field}.count`,
    );
  }
  return values.count ?? USUAL_COUNT;
};

/** Value `index` of `of` on a grid. */
export const gridValue = (values: ValuesAsked, index: number, of: number): number => {
  if (values.kind === "list") return values.list[index] ?? 0;
  if (values.kind !== "range") return valueAt(values, (index + 0.5) / of);
  // Both ends exactly, and nothing summed up.
  return index === of - 1 ? values.to : values.from + ((values.to - values.from) * index) / Math.max(1, of - 1);
};

/** The least and the greatest value that can come, as far as there is one. */
export const reachOf = (values: ValuesAsked): { readonly least: number; readonly most: number } => {
  switch (values.kind) {
    case "list":
      return { least: Math.min(...values.list), most: Math.max(...values.list) };
    case "range":
      return { least: values.from, most: values.to };
    case "normal":
      return { least: values.least ?? -Infinity, most: values.most ?? Infinity };
    case "log-normal":
      return { least: 0, most: Infinity };
    case "triangular":
      return { least: values.low, most: values.high };
    default:
      return missingCase(values);
  }
};
