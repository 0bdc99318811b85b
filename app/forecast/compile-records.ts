/** Recorded facts that a plan replays, as events: what each does, and its place among those of one instant. */
import { EVENT, RECORD } from "./compiled-plan.ts";
import { columns } from "./draft.ts";
import type { PlanSnapshot, ReplayedRecord } from "../entity/plan.ts";

/** Beside which planned events a record stands at one instant. */
const slotOf: Readonly<Record<ReplayedRecord["order"], number>> = {
  first: EVENT.rate,
  in: EVENT.arrival,
  measured: EVENT.record,
  out: EVENT.load,
  departs: EVENT.departure,
};

/** One event: the depot whose causal rank it takes (null: none), its slot, and its row of the columns. */
export interface RecordEvent {
  readonly at: number;
  readonly depotId: string | null;
  readonly slot: number;
  readonly index: number;
}

interface Trip {
  readonly lander: number;
  readonly depotId: string;
  /** Lander's tanks that leave empty. */
  readonly tanks: readonly number[];
  /** The needs with which it leaves, and what the depot gave to each, kg; empty: its return is known, too. */
  readonly needs: readonly { readonly need: number; readonly givenKg: number }[];
  readonly leavesAt: number;
  readonly backAt: number | null;
}

export const compileRecords = (plan: PlanSnapshot, tankIds: readonly string[], trips: readonly Trip[]) => {
  const column = columns("what", "of", "kg");
  const events: RecordEvent[] = [];
  const add = (at: number, depotId: string | null, slot: number, what: number, of: number, kg: number): void => {
    events.push({ at, depotId, slot, index: column.what.push(what) - 1 });
    column.of.push(of);
    column.kg.push(kg);
  };
  const tanks = new Map(tankIds.map((id, index) => [id, index]));
  // What leaves with a trip is reckoned from the level that the run finds: the books may not yet know how it came there.
  const leavingKey = (tank: number, at: number, order: ReplayedRecord["order"]): string => `${tank}/${at}/${order}`;
  const leaving = new Set(trips.flatMap((trip) => trip.tanks.map((tank) => leavingKey(tank, trip.leavesAt, "out"))));
  const owners = new Map(plan.tanks.map((tank) => [tank.id, tank.ownerKind === "depot" ? tank.ownerId : null]));
  for (const { at, tankId, what, kg, order } of plan.replay?.records ?? []) {
    const tank = tanks.get(tankId);
    if (tank !== undefined && !leaving.has(leavingKey(tank, at, order)))
      add(at, owners.get(tankId) ?? null, slotOf[order], RECORD[what], tank, kg);
  }
  for (const { lander, depotId, tanks: aboard, needs, leavesAt, backAt } of trips) {
    // What leaves has come home before: an earlier sortie of the lander that is only assumed to be out is back by then.
    add(leavesAt, depotId, EVENT.return, RECORD.home, lander, 0);
    for (const { need, givenKg } of needs) add(leavesAt, depotId, EVENT.load, RECORD.loaded, need, givenKg);
    for (const tank of aboard) add(leavesAt, depotId, EVENT.load, RECORD.level, tank, 0);
    add(leavesAt, depotId, EVENT.load, RECORD.leaves, lander, 0);
    if (backAt !== null) add(backAt, depotId, EVENT.return, RECORD.back, lander, 0);
  }
  return { column, events };
};
