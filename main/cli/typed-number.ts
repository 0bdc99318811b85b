/** A number given to an option: read as in a form, so that what could mean two things is refused with both. */
import { readTyped } from "../../app/format/read-typed.ts";
import { PlanningError } from "../../app/ground/failure.ts";

/** `unit`: what the option is in, which may be typed with it, or another of its kind; `words`: what is asked for. Throws "invalid input". */
export const typedNumber = (text: string, unit: string, option: string, words: string): number => {
  const typed = readTyped(text, unit);
  if (typed.ok) return typed.value;
  throw new PlanningError("invalid input", `${words} ${typed.fault}`, option);
};
