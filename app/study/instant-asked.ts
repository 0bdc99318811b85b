/** A date as a study writes it: ISO 8601, UTC. */
import { PlanningError } from "../ground/failure.ts";
import { readDate } from "../format/read-date.ts";

/** Throws "invalid input" for what is no date. */
export const instantAsked = (text: string, field: string): number => {
  const at = readDate(text, "year first");
  if (at === null)
    throw new PlanningError(
      "invalid input",
      `“${text}” is not a date. Write it like 2031-02-20, or 2031-02-20 06:30 (UTC).`,
      field,
    );
  return at;
};
