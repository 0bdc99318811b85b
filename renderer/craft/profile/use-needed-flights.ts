/** Asks the forecast, way by way and in short turns, how many tanker flights each way needs; what is typed never waits. */
import { useEffect, useState } from "react";
import type { PlanSnapshot } from "../../../app/forecast/plan.ts";
import type { Entity } from "../../../app/ledger/entities.ts";
import type { WayResult } from "../../../app/sortie/ways.ts";
import { planWithDemand } from "../../../app/ways/campaign-plan.ts";
import { type NeededFlights, neededFlights } from "../../../app/ways/needed-flights.ts";

/** Longest turn, ms: half a frame. */
const TURN_MS = 8;

/** By name of the way. A way that is not in it is still being looked at, or cannot be flown. */
export type NeededByWay = ReadonlyMap<string, NeededFlights>;

/** A new question stops the search for the one before. */
export const useNeededFlights = (
  plan: PlanSnapshot,
  classId: string,
  ways: readonly WayResult[],
  tanker: Entity<"craftClass"> | undefined,
): NeededByWay => {
  const [found, setFound] = useState<{ of: readonly WayResult[]; needed: NeededByWay } | null>(null);
  useEffect(() => {
    if (tanker === undefined) return undefined;
    const needed = new Map<string, NeededFlights>();
    const searches = ways
      .filter(({ sheet }) => sheet !== null)
      .map(({ name, demand }) => ({ name, search: neededFlights(planWithDemand(plan, classId, demand), tanker) }));
    let timer: ReturnType<typeof setTimeout>;
    const turn = (): void => {
      const until = performance.now() + TURN_MS;
      for (let first = searches[0]; first !== undefined; first = searches[0]) {
        const step = first.search.next();
        if (step.done === true) {
          needed.set(first.name, step.value);
          searches.shift();
        } else if (performance.now() > until) {
          timer = setTimeout(turn);
          return;
        }
      }
      setFound({ of: ways, needed });
    };
    timer = setTimeout(turn);
    return () => clearTimeout(timer);
  }, [plan, classId, ways, tanker]);
  return found?.of === ways ? found.needed : new Map();
};
