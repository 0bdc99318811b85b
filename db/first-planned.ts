/** When flights were first planned to depart: the edit history walked back from the rows as they are now. */
import type { Entity } from "../app/entity/entities.ts";
import type { Connection } from "./connection.ts";
import { withDifference } from "./row-difference.ts";
import { readRow } from "./rows.ts";

interface FlightChange {
  readonly row_id: string;
  readonly before: string | null;
  readonly after: string | null;
  readonly step_id: number;
  readonly line: number;
}

type Planned = Pick<FlightChange, "step_id" | "line"> & { readonly flight: Entity<"flight"> };

/** Of each flight the latest first. */
const CHANGES = `SELECT c.row_id, c.before, c.after, c.step_id, c.line FROM edit_change c JOIN edit_step s ON s.id = c.step_id
  WHERE c.kind = 'flight' AND s.state = 'done' ORDER BY c.row_id, c.step_id DESC, c.line DESC`;

/** Each flight as it was before each of its changes or, where it was new, after. */
const states = function* (db: Connection): Generator<Planned> {
  let id: string | null = null;
  let flight: Entity<"flight"> | null = null;
  for (const change of db.prepared(CHANGES).all() as FlightChange[]) {
    if (change.row_id !== id) flight = readRow(db, "flight", change.row_id);
    id = change.row_id;
    const before = withDifference(flight, change.before) as Entity<"flight"> | null;
    const shown = before ?? (withDifference(flight, change.after) as Entity<"flight"> | null);
    if (shown !== null) yield { flight: shown, step_id: change.step_id, line: change.line };
    flight = before;
  }
};

/** By key, ms UTC: the earliest word of each that the history has. */
export const readFirstPlanned = (db: Connection): ReadonlyMap<string, number> => {
  const planned = [...states(db)]
    .filter(({ flight }) => flight.status === "planned" || flight.status === "firm")
    .toSorted((a, b) => a.step_id - b.step_id || a.line - b.line);
  const first = new Map<string, number>();
  for (const { flight } of planned) if (!first.has(flight.key)) first.set(flight.key, flight.departAt);
  return first;
};
