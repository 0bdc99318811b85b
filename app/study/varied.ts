/** What one input of a study does to a plan: the rows that it changes, by name, and in the engine where that is enough. */
import type { CompiledPlan } from "../forecast/compiled-plan.ts";
import type { Engine } from "../forecast/propagate.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import { PlanningError } from "../ground/failure.ts";
import type { ResupplyAsked } from "../resupply/asked.ts";

/** Sets an engine to a value, writing all of its own places and no other's. */
export type Setter = (engine: Engine, value: number) => void;

export interface Varied {
  /** "loss rate of Tarn hydrogen". */
  readonly words: string;
  /** "%/day", "kg", "days"; "": a number. */
  readonly unit: string;
  /** The value that changes nothing, where there is one. */
  readonly today: number | null;
  /** The least and the greatest value that make sense, and why. */
  readonly least: number;
  readonly most: number;
  readonly whyLimits: string;
  readonly isWhole?: boolean;
  /** Only a run of the risk takes notice. */
  readonly isForRisk?: boolean;
  /** What it writes; two inputs of a study may not write the same. */
  readonly writes: readonly string[];
  /** The plan with this value. Does not touch the plan given; pure. */
  change(plan: PlanSnapshot, value: number): PlanSnapshot;
  /** The question of resupply with this value; absent: it is in the plan. */
  asked?(asked: ResupplyAsked, plan: PlanSnapshot, value: number): ResupplyAsked;
  /** The same as `change` for the exact forecast, without compiling anew; absent: there is no such way. */
  setter?(compiled: CompiledPlan, plan: PlanSnapshot): Setter;
  /** Values for which the setter says the same as `change`; absent: all. */
  canSet?(value: number): boolean;
}

interface NamedRow {
  readonly id: string;
  readonly name: string;
}

/** The row that a person means by name or id. Throws "not found", with the names that there are. */
export const rowNamed = <R extends NamedRow>(rows: readonly R[], wanted: string, what: string, field: string): R => {
  const byId = rows.find(({ id }) => id === wanted);
  if (byId !== undefined) return byId;
  const found = rows.filter(({ name }) => name.toLowerCase() === wanted.toLowerCase());
  if (found.length > 1)
    throw new PlanningError(
      "invalid input",
      `More than one ${what} is called ${wanted}. Name it by its id: ${found.map(({ id }) => id).join(", ")}.`,
      field,
    );
  const [row] = found;
  if (row !== undefined) return row;
  const names = rows.map(({ name }) => name);
  throw new PlanningError(
    "not found",
    `The plan has no ${what} ${wanted}.${names.length === 0 ? ` It has none.` : ` It has: ${names.join(", ")}.`}`,
    field,
  );
};

/** Throws "refused": the input is of this plan, but would do nothing. */
export const idle = (message: string, field: string): never => {
  throw new PlanningError("refused", message, field);
};

/**
 * The plan to an instant at which all that was moved later has happened: nothing may fall out at the end because it was
 * moved, and nothing may come in because the end was.
 */
export const withRoom = (before: PlanSnapshot, moved: PlanSnapshot, untilAt: number): PlanSnapshot => {
  if (untilAt <= before.horizonAt) return moved;
  const inside = <R extends { readonly id: string }>(rows: readonly R[], now: readonly R[], at: (row: R) => number) => {
    const kept = new Set(rows.filter((row) => at(row) <= before.horizonAt).map(({ id }) => id));
    return now.filter(({ id }) => kept.has(id));
  };
  return {
    ...moved,
    horizonAt: untilAt,
    planCase: { ...moved.planCase, horizonAt: untilAt },
    flights: inside(before.flights, moved.flights, (row) => row.arriveAt),
    sorties: inside(before.sorties, moved.sorties, (row) => row.loadAt),
  };
};
