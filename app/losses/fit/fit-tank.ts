/** A fit on one tank of a ledger: its readings, what moved between them, the rate in force as the start. */
import { PlanningError } from "../../contract/failure.ts";
import { type LossRate, ratePieces } from "../../forecast/loss-rate.ts";
import type { LevelSegment } from "../../forecast/segment.ts";
import { carryForward } from "../../ledger/carry-forward.ts";
import type { EntitySet } from "../../ledger/entities.ts";
import { findEntity } from "../../ledger/entity-index.ts";
import type { LossPeriod } from "../../ledger/entity/loss-period.ts";
import type { Tank } from "../../ledger/entity/tank.ts";
import type { EntryKind } from "../../ledger/journal.ts";
import { lossesOf } from "../../ledger/past.ts";
import type { LedgerStore } from "../../ledger/store.ts";
import type { FitResult } from "./fit-result.ts";
import { fitRate } from "./fit-rate.ts";
import type { FitRequest } from "./observations.ts";

export interface TankFitRequest extends Pick<FitRequest, "fitted" | "fromAt" | "untilAt" | "leftOutIds"> {
  readonly tankId: string;
  /** The rate to hold for what is not fitted; null: the one in force at the first reading. */
  readonly held: LossRate | null;
}

/** A fit on a tank, with the level as the rates in force would have had it from the first reading on. */
export interface TankFit extends FitResult {
  readonly predicted: readonly LevelSegment[];
}

/** These bring the books to a level and move nothing. */
const bookings: ReadonlySet<EntryKind> = new Set<EntryKind>(["opening", "reading", "closing"]);

const holdsKg = (entities: EntitySet, tank: Tank): number => {
  const density = findEntity(entities, "propellant", tank.propellantId)?.densityKgPerM3;
  const byVolume = tank.volumeM3 === null || density === undefined ? 0 : tank.volumeM3 * density;
  return Math.max(byVolume, tank.maximumFillKg);
};

/** `entities` are those of one plan case. Throws "not found" for the tank, else as {@link fitRate}. */
export const fitTank = (
  entities: EntitySet,
  store: Pick<LedgerStore, "tankMovements" | "readings">,
  request: TankFitRequest,
): TankFit => {
  const tank = findEntity(entities, "tank", request.tankId);
  if (tank === null) throw new PlanningError("not found", `There is no tank ${request.tankId}.`, "tankId");
  if (!(request.untilAt > request.fromAt)) {
    throw new PlanningError("invalid input", "The span of readings ends before it begins.", "untilAt");
  }
  const { periods, fallback } = lossesOf(entities, tank);
  const pieces = ratePieces(periods, request.fromAt, request.untilAt, fallback);
  const [first] = pieces;
  const transfers = store
    .tankMovements(request.fromAt - 1, request.untilAt)
    .filter((move) => move.tankId === tank.id && !bookings.has(move.kind));
  const fit = fitRate({
    ...request,
    readings: store.readings().filter((reading) => reading.tankId === tank.id),
    transfers,
    holdsKg: holdsKg(entities, tank),
    rate: request.held ?? { kPerDay: first?.kPerDay ?? 0, cKgPerDay: first?.cKgPerDay ?? 0 },
  });
  const start = { at: fit.firstAt, massKg: fit.readings[0]?.massKg ?? 0 };
  const between = transfers.filter(({ at, massKg }) =>
    massKg > 0 ? at > fit.firstAt && at <= fit.lastAt : at >= fit.firstAt && at < fit.lastAt,
  );
  const { segments: predicted } = carryForward(start, between, { periods, fallback }, fit.lastAt);
  return { ...fit, messages: [...fit.messages, ...changeMessages(periods, fallback, fit)], predicted };
};

const changeMessages = (periods: readonly LossPeriod[], fallback: LossRate, fit: FitResult): readonly string[] => {
  const within = ratePieces(periods, fit.firstAt, fit.lastAt, fallback);
  if (within.length < 2) return [];
  const reasons = [...new Set(within.map((piece) => piece.period?.reason ?? "no period"))].join(", ");
  return [
    `The rate in force changes within these readings (${reasons}); one rate is fitted to all of them. Shorten the span to keep them apart.`,
  ];
};
