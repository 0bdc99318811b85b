/** What is taken to have gone as planned although no record says so: overdue events, and the stretches of levels they made. */
import type { PlanSnapshot } from "../entity/plan.ts";
import { listed } from "../words/counted.ts";

export interface AssumedStretch {
  readonly fromAt: number;
  readonly untilAt: number;
}

/** Instants at which something overdue is assumed to have moved propellant into or out of a depot. */
const assumedMoves = (
  { flights, sorties, asOfAt }: PlanSnapshot,
  overdue: ReadonlySet<string>,
  depotId: string,
): readonly number[] => [
  ...flights.flatMap((flight) => {
    if (!overdue.has(flight.id)) return [];
    const left =
      flight.status !== "departed" && flight.origin.kind === "depot" && flight.origin.depotId === depotId
        ? [flight.departAt]
        : [];
    return flight.depotId === depotId && flight.arriveAt < asOfAt ? [...left, flight.arriveAt] : left;
  }),
  ...sorties.flatMap((sortie) =>
    overdue.has(sortie.id) && sortie.depotId === depotId && sortie.status === "planned" ? [sortie.loadAt] : [],
  ),
];

/**
 * The stretches before the as-of instant in which the level of a depot's propellant rests on events without a record, in
 * order. One ends where its tank was measured, or at the as-of instant; several tanks together only there. `overdue`: ids of
 * flights and sorties.
 */
export const assumedStretches = (
  plan: PlanSnapshot,
  overdue: ReadonlySet<string>,
  depotId: string,
  propellantId: string,
): readonly AssumedStretch[] => {
  const tanks = plan.tanks.filter(
    (tank) => tank.ownerKind === "depot" && tank.ownerId === depotId && tank.propellantId === propellantId,
  );
  const [tank] = tanks;
  const measured =
    tank === undefined || tanks.length > 1
      ? []
      : (plan.replay?.records ?? []).flatMap(({ what, tankId, at }) =>
          what === "level" && tankId === tank.id ? [at] : [],
        );
  const stretches: AssumedStretch[] = [];
  for (const fromAt of assumedMoves(plan, overdue, depotId).toSorted((a, b) => a - b)) {
    if (fromAt < (stretches.at(-1)?.untilAt ?? -Infinity)) continue;
    stretches.push({ fromAt, untilAt: Math.min(plan.asOfAt, ...measured.filter((at) => at > fromAt)) });
  }
  return stretches;
};

/** Names that are said; of more, how many. */
const MAX_NAMED = 6;

/** "assumed to have gone as planned, without a record, and overdue: Packhorse 3 and Sortie 4"; null: nothing is overdue. */
export const overdueWords = ({ flights, sorties }: PlanSnapshot, overdue: ReadonlySet<string>): string | null => {
  const names = [...flights, ...sorties].filter(({ id }) => overdue.has(id)).map(({ name }) => name);
  return names.length === 0
    ? null
    : `assumed to have gone as planned, without a record, and overdue: ${listed(names, MAX_NAMED)}`;
};
