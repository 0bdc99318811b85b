/** What matters to an outcome of a study: its column ranked over the inputs. */
import { PlanningError } from "../ground/failure.ts";
import { type Indices, sobolIndices } from "./indices.ts";
import type { StudyResult } from "./study-map.ts";

export interface Ranking extends Indices {
  readonly of: string;
  readonly unit: string;
}

/** `of`: the name of a column that is a number at every point. Throws "refused" or "not found". */
export const rankInputs = ({ columns, inputs, rows }: StudyResult, design: string, of: string): Ranking => {
  if (design !== "what matters")
    throw new PlanningError(
      "refused",
      'A ranking needs points of its own: plan the study with the design {"kind": "what matters", "base": 1024}.',
    );
  const outcomes = columns.slice(inputs);
  const index = outcomes.findIndex(({ name }) => name.toLowerCase() === of.toLowerCase());
  const column = outcomes[index];
  if (column === undefined)
    throw new PlanningError(
      "not found",
      `The study has no outcome ${of}. It has: ${outcomes.map(({ name }) => name).join(", ")}.`,
    );
  const values = rows.map((row) => row[inputs + index]);
  const odd = values.find((value) => typeof value !== "number");
  if (odd !== undefined)
    throw new PlanningError(
      "refused",
      odd === null
        ? `${column.name} has no number at some of the points (its lander was away, or nothing flew), so that its variance has no meaning.`
        : `${column.name} is a word, not a number: rank a margin, a count or a probability.`,
    );
  return {
    of: column.name,
    unit: column.unit,
    ...sobolIndices(Float64Array.from(values as readonly number[]), inputs),
  };
};
