/** Refuses input that is too large to be meant, or is not plain data, before anything looks at it in earnest. */
import { PlanningError } from "../../app/ground/failure.ts";

/** Values in one input, counted through all its depths. An edit of the most changes allowed stays well below. */
const MAX_VALUES = 2_000_000;
/** Characters in one input: the largest file text and a little. */
const MAX_CHARACTERS = 66_000_000;
const MAX_DEPTH = 40;

interface Count {
  values: number;
  characters: number;
}

/** A list or a group of fields; not a date, a map, bytes. */
const isPlain = (value: object): boolean => {
  if (Array.isArray(value)) return true;
  const prototype: unknown = Object.getPrototypeOf(value);
  return prototype === null || Object.getPrototypeOf(prototype) === null;
};

const weigh = (value: unknown, depth: number, count: Count): void => {
  count.values += 1;
  if (typeof value === "string") count.characters += value.length;
  // A ring of references would go on for ever; the depth stops it.
  if (count.values > MAX_VALUES || count.characters > MAX_CHARACTERS || depth > MAX_DEPTH)
    throw new PlanningError("invalid input", "This input is too large.");
  if (typeof value !== "object" || value === null) return;
  if (!isPlain(value)) throw new PlanningError("invalid input", "Plain data is expected here.");
  for (const [key, part] of Object.entries(value)) {
    count.characters += key.length;
    weigh(part, depth + 1, count);
  }
};

/** Throws "invalid input" if the input is too large, too deep or not plain data. */
export const refuseOversize = (input: unknown): void => weigh(input, 0, { values: 0, characters: 0 });
