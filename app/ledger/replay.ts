/** Where the forecast of a plan has to begin, and the records that it replays from there on. */
import type { PlanSnapshot, Replay, ReplayedRecord } from "../entity/plan.ts";
import { homeAt } from "../entity/sortie.ts";
import type { Tank } from "../entity/tank.ts";
import type { Books } from "./past.ts";
import { DAY_MS } from "../ground/quantity.ts";
import type { TankMovement } from "./books.ts";

/** The first instant at which the plan says that something happened of which there is no record; Infinity: nothing. */
const firstUnrecordedAt = (plan: Pick<PlanSnapshot, "flights" | "sorties">): number => {
  const instants = [
    ...plan.flights.flatMap(({ status, origin, departAt, arriveAt }) => {
      if (status === "departed") return [arriveAt];
      // What leaves a source changes nothing here before it arrives.
      if (status === "planned" || status === "firm") return [origin.kind === "depot" ? departAt : arriveAt];
      return [];
    }),
    ...plan.sorties.flatMap((sortie) =>
      sortie.status === "planned"
        ? [sortie.loadAt]
        : sortie.status === "departed"
          ? [homeAt(sortie, plan.sorties)]
          : [],
    ),
  ];
  return instants.reduce((earliest, at) => Math.min(earliest, at), Infinity);
};

/** Where the replay begins: a metered flow is replayed whole, so one that runs at the beginning, or ends there, pulls it back to its own. */
const beginningOf = (books: Books, unrecordedAt: number, asOfAt: number): number => {
  let fromAt = unrecordedAt;
  for (;;) {
    const sinceAt = books
      .tankMovements(fromAt - 1, asOfAt)
      .reduce((earliest, movement) => Math.min(earliest, movement.sinceAt ?? earliest), fromAt);
    if (sinceAt >= fromAt) return fromAt;
    fromAt = sinceAt;
  }
};

/** Whether a movement moves mass at one instant: boil-off booked from the model is what the forecast loses by itself. */
const isMoving = ({ kind, statedKg, sinceAt }: TankMovement): boolean =>
  statedKg === null && sinceAt === null && kind !== "closing";

/**
 * kg by which a level that was measured differs from what the run must set. At one instant the run lets in, then measures,
 * then draws; the books may have a draw before the level at its minute, or an inflow after it.
 */
const outOfTurnKg = (movements: readonly TankMovement[], index: number): number => {
  const at = movements[index]?.at;
  let kg = 0;
  for (let n = index - 1; movements[n]?.at === at && n >= 0; n -= 1) {
    const before = movements[n];
    if (before !== undefined && isMoving(before) && before.massKg < 0) kg -= before.massKg;
  }
  for (let n = index + 1; movements[n]?.at === at && n < movements.length; n += 1) {
    const after = movements[n];
    if (after !== undefined && isMoving(after) && after.massKg > 0) kg += after.massKg;
  }
  return kg;
};

/** A movement of one tank, by its place among all of them, as the forecast replays it. */
const recordsOf = (tank: Tank, movements: readonly TankMovement[], index: number): readonly ReplayedRecord[] => {
  const movement = movements[index];
  if (movement === undefined) return [];
  const { at, kind, massKg, statedKg } = movement;
  const base = { at, tankId: tank.id };
  if (statedKg !== null) {
    const order = kind === "opening" ? "first" : kind === "return" ? "in" : kind === "loading" ? "out" : "measured";
    const kg = order === "measured" ? statedKg + outOfTurnKg(movements, index) : statedKg;
    return [{ ...base, what: "level", kg, order }];
  }
  if (!isMoving(movement)) return [];
  return [{ ...base, what: "moved", kg: massKg, order: massKg > 0 ? "in" : kind === "departure" ? "departs" : "out" }];
};

/** The metered inflow of a tank by the records, as instants from which it is so many kg/day. */
const flowsOf = (tank: Tank, movements: readonly TankMovement[]): readonly ReplayedRecord[] => {
  const flows = movements.flatMap(({ sinceAt, at, massKg }) => (sinceAt === null ? [] : [{ sinceAt, at, massKg }]));
  const edges = [...new Set(flows.flatMap(({ sinceAt, at }) => [sinceAt, at]))].toSorted((a, b) => a - b);
  return edges.map((at) => {
    const kg = flows
      .filter((flow) => flow.sinceAt <= at && at < flow.at)
      .reduce((sum, flow) => sum + (flow.massKg / (flow.at - flow.sinceAt)) * DAY_MS, 0);
    return { at, tankId: tank.id, what: "flow" as const, kg, order: "in" as const };
  });
};

/** null: nothing that is planned up to the as-of instant is without a record, so the forecast begins there. */
export const replayOf = (
  plan: Pick<PlanSnapshot, "flights" | "sorties" | "tanks">,
  books: Books,
  asOfAt: number,
): Replay | null => {
  const unrecordedAt = firstUnrecordedAt(plan);
  if (unrecordedAt > asOfAt) return null;
  const fromAt = beginningOf(books, unrecordedAt, asOfAt);
  const movements = Map.groupBy(books.tankMovements(fromAt - 1, asOfAt), (m) => m.tankId);
  const records = plan.tanks.flatMap((tank) => {
    const own = movements.get(tank.id) ?? [];
    return [...own.flatMap((_, index) => recordsOf(tank, own, index)), ...flowsOf(tank, own)];
  });
  return { fromAt, records };
};
