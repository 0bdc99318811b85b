/** A fit on one tank of a ledger: its readings, what moved between them, the rate in force as the start. */
import { PlanningError } from "../../contract/failure.ts";
import type { LossRate } from "../../forecast/loss-rate.ts";
import type { LevelSegment } from "../../forecast/segment.ts";
import { carryForward } from "../../ledger/carry-forward.ts";
import type { EntitySet } from "../../ledger/entities.ts";
import { findEntity } from "../../ledger/entity-index.ts";
import type { Tank } from "../../ledger/entity/tank.ts";
import type { EntryKind, Reading } from "../../ledger/journal.ts";
import { lossesOf } from "../../ledger/past.ts";
import type { LedgerStore } from "../../ledger/store.ts";
import type { FitResult } from "./fit-result.ts";
import { fitRate } from "./fit-rate.ts";
import type { FitRequest } from "./observations.ts";
import { type RateStretches, rateStretches } from "./stretches.ts";

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

/** A fit on a tank, with the level as the rates in force would have had it from the first reading on. */
export interface TankFit extends FitResult {
  readonly predicted: readonly LevelSegment[];
  /** Where another rate was in force among the readings, and why. */
  readonly apartSpans: RateStretches["apart"];
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
  const readings = store.readings().filter((reading) => reading.tankId === tank.id);
  const found = rateStretches(periods, fallback, request, lastReadingAt(readings, request));
  const isApart = request.rateChanges === "apart";
  const transfers = store
    .tankMovements(request.fromAt - 1, request.untilAt)
    .filter((move) => move.tankId === tank.id && !bookings.has(move.kind));
  const fit = fitRate({
    ...request,
    readings,
    transfers,
    stretches: isApart ? found.stretches : null,
    holdsKg: holdsKg(entities, tank),
    rate: request.held ?? found.rate,
  });
  const start = { at: fit.firstAt, massKg: fit.readings[0]?.massKg ?? 0 };
  const between = transfers.filter(({ at, massKg }) =>
    massKg > 0 ? at > fit.firstAt && at <= fit.lastAt : at >= fit.firstAt && at < fit.lastAt,
  );
  const { segments: predicted } = carryForward(start, between, { periods, fallback }, fit.lastAt);
  // Of all readings, also of those that do not count.
  const seen = [fit.firstAt, fit.lastAt, ...fit.apart.map(({ at }) => at)];
  const apartSpans = found.apart.filter(
    ({ fromAt, untilAt }) => fromAt < Math.max(...seen) && untilAt > Math.min(...seen),
  );
  const words = isApart ? apartMessages(found, fit, apartSpans) : asOneMessages(apartSpans);
  return { ...fit, messages: [...fit.messages, ...words], predicted, apartSpans: isApart ? apartSpans : [] };
};

/** The last reading that may count; the end of the span without one. */
const lastReadingAt = (readings: readonly Reading[], { fromAt, untilAt, leftOutIds }: TankFitRequest): number =>
  readings
    .filter(({ id, at, isWithdrawn }) => !isWithdrawn && at >= fromAt && at <= untilAt && !leftOutIds.includes(id))
    .reduce((last, { at }) => Math.max(last, at), -Infinity);

const reasonsOf = (spans: RateStretches["apart"]): string => [...new Set(spans.map(({ reason }) => reason))].join(", ");

const apartMessages = (found: RateStretches, fit: FitResult, spans: RateStretches["apart"]): readonly string[] => {
  if (spans.length === 0) return [];
  const count = fit.apart.length;
  const readings = count === 0 ? "" : ` ${count === 1 ? "One reading" : `${count} readings`} under it do not count.`;
  return [
    `The fit is of the rate “${found.reason}”. Another was in force at times (${reasonsOf(spans)}): the level begins anew after it, so that nothing is assumed of what was lost meanwhile.${readings}`,
  ];
};

const asOneMessages = (spans: RateStretches["apart"]): readonly string[] =>
  spans.length === 0
    ? []
    : [
        `The rate in force changes within these readings (${reasonsOf(spans)}); one rate is fitted to all of them, and is true of neither.`,
      ];
