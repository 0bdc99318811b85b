/** What a fit on a tank is made from, read from the ledger as plain data; the fit of it may run in another thread. */
import { PlanningError } from "../../ground/failure.ts";
import type { LossRate } from "../../storage/loss-rate.ts";
import type { EntitySet } from "../../entity/entities.ts";
import { findEntity } from "../../entity/entity-index.ts";
import type { LossPeriod } from "../../entity/loss-period.ts";
import type { Tank } from "../../entity/tank.ts";
import type { EntryKind, Reading } from "../../ledger/journal.ts";
import { lossesOf } from "../../ledger/past.ts";
import type { LedgerBooks, TankMovement } from "../../ledger/books.ts";
import type { FitRequest } from "./observations.ts";

export interface TankFitRequest extends Pick<FitRequest, "fitted" | "fromAt" | "untilAt" | "leftOutIds"> {
  readonly tankId: string;
  /** The rate to hold for what is not fitted; null: the one in force, by the loss periods. */
  readonly held: LossRate | null;
  /**
   * What to do where the rate in force changes within the span. Apart: the rate up to the last reading is fitted, readings
   * under another are set apart, and the level begins anew after each. As one: one rate is fitted to all.
   */
  readonly rateChanges: "apart" | "as one";
}

/** These bring the books to a level and move nothing. */
const bookings: ReadonlySet<EntryKind> = new Set<EntryKind>(["opening", "reading", "closing"]);

const holdsKg = (entities: EntitySet, tank: Tank): number => {
  const density = findEntity(entities, "propellant", tank.propellantId)?.densityKgPerM3;
  const byVolume = tank.volumeM3 === null || density === undefined ? 0 : tank.volumeM3 * density;
  return Math.max(byVolume, tank.maximumFillKg);
};

/** All that a fit on a tank is made from. */
export interface TankFitQuestion {
  readonly request: TankFitRequest;
  readonly periods: readonly LossPeriod[];
  readonly fallback: LossRate;
  /** Of this tank, of any time. */
  readonly readings: readonly Reading[];
  /** In the span, without those that bring the books to a level. */
  readonly transfers: readonly TankMovement[];
  readonly holdsKg: number;
}

/** `entities` are those of one plan case. Throws "not found" for the tank and "invalid input" for a span that is none. */
export const tankFitQuestion = (
  entities: EntitySet,
  store: Pick<LedgerBooks, "movementsOfTank" | "readings">,
  request: TankFitRequest,
): TankFitQuestion => {
  const tank = findEntity(entities, "tank", request.tankId);
  if (tank === null) throw new PlanningError("not found", `There is no tank ${request.tankId}.`, "tankId");
  if (!(request.untilAt > request.fromAt)) {
    throw new PlanningError("invalid input", "The span of readings ends before it begins.", "untilAt");
  }
  return {
    request,
    ...lossesOf(entities, tank),
    readings: store.readings().filter((reading) => reading.tankId === tank.id),
    transfers: store
      .movementsOfTank(tank.id, request.fromAt - 1, request.untilAt)
      .filter((move) => !bookings.has(move.kind)),
    holdsKg: holdsKg(entities, tank),
  };
};
