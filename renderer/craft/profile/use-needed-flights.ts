/** How many tanker flights each way needs, way by way as the forecast finds it; what is typed never waits. */
import { useMemo } from "react";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import type { Entity } from "../../../app/entity/entities.ts";
import type { WayResult } from "../../../app/sortie/ways.ts";
import type { NeededFlights } from "../../../app/ways/needed-flights.ts";
import { type Question, useQuestion } from "../../state/use-question.ts";

/** By name of the way. A way that is not in it is still being looked at, or cannot be flown. */
export type NeededByWay = ReadonlyMap<string, NeededFlights>;

interface Needed extends Pick<Question<"ways.needed">, "run" | "failure" | "again"> {
  readonly needed: NeededByWay;
}

export const useNeededFlights = (
  plan: PlanSnapshot,
  classId: string,
  ways: readonly WayResult[],
  tanker: Entity<"craftClass"> | undefined,
): Needed => {
  const planCaseId = plan.planCase.id;
  const tankerId = tanker?.id;
  const asked = useMemo(
    () =>
      tankerId === undefined
        ? null
        : {
            planCaseId,
            classId,
            tankerId,
            ways: ways
              .filter(({ sheet }) => sheet !== null)
              .map(({ name, demand }) => ({ name, demand: demand.map((line) => ({ ...line })) })),
          },
    [planCaseId, classId, tankerId, ways],
  );
  const { value, partial, isCurrent, run, failure, again } = useQuestion("ways", "ways.needed", asked, {
    title: "Flights each way needs",
  });
  const found = isCurrent ? value : partial;
  const needed = useMemo(() => new Map((found ?? []).map((way) => [way.name, way.needed])), [found]);
  return { needed, run, failure, again };
};
