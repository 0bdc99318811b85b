/** A record on which a later one of the same flight or sortie rests stays as it is: which one that is, and what to do. */
import { PlanningError } from "../ground/failure.ts";
import type { Flight } from "../entity/flight.ts";
import type { Sortie } from "../entity/sortie.ts";
import { formatMinute } from "../format/time.ts";

/** When what the status says happened, ms UTC; null: nothing happened. */
const happenedAt = (row: Flight | Sortie): number | null => {
  switch (row.status) {
    case "arrived":
      return row.arriveAt;
    case "lost":
      return row.lostAt;
    case "flown":
      return row.returnAt;
    case "departed":
      return "loadAt" in row ? row.loadAt : row.departAt;
    default:
      return null;
  }
};

const verbs: Partial<Readonly<Record<Flight["status"] | Sortie["status"], string>>> = {
  departed: "left",
  arrived: "arrived",
  lost: "was lost",
  flown: "came home",
};

/** Throws "refused", with the way out. */
export const refuseLaterRecord = (row: Flight | Sortie): never => {
  const at = happenedAt(row);
  const when = at === null ? "" : ` (${formatMinute(at)})`;
  throw new PlanningError(
    "refused",
    `${row.name} ${verbs[row.status] ?? `is ${row.status}`} by a later record${when}, which rests on this one. Reverse that one first in the journal, put this one right, then record that one again.`,
    "entryId",
  );
};
