/** A tank at the as-of instant: its level by the books and the loss rate then in force. */
import { levelAt } from "../../app/forecast/curve.ts";
import { type Forecast, forecast } from "../../app/forecast/forecast.ts";
import { type LossRate, NO_LOSS, periodInForce, rateOf } from "../../app/storage/loss-rate.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";

/** Where something is overdue the openings lie before the as-of instant: the forecast carries them to it. */
const forecasts = new WeakMap<PlanSnapshot, Forecast>();
const forecastOf = (plan: PlanSnapshot): Forecast => {
  const known = forecasts.get(plan) ?? forecast(plan);
  forecasts.set(plan, known);
  return known;
};

/** kg; a tank without an opening is empty. */
export const levelNow = (plan: PlanSnapshot, tankId: string): number =>
  plan.replay === undefined
    ? (plan.opening.find((opening) => opening.tankId === tankId)?.massKg ?? 0)
    : levelAt(forecastOf(plan).levels.find((level) => level.tankId === tankId)?.segments ?? [], plan.asOfAt);

/** A lander's tank without a period of its own loses at its class's docked rate; a depot's loses nothing. */
export const rateNow = (plan: PlanSnapshot, tankId: string): LossRate => {
  const period = periodInForce(
    plan.lossPeriods.filter((candidate) => candidate.tankId === tankId),
    plan.asOfAt,
  );
  if (period !== null) return rateOf(period.basis);
  const tank = plan.tanks.find(({ id }) => id === tankId);
  const owner = tank?.ownerKind === "craft" ? plan.craft.find(({ id }) => id === tank.ownerId) : undefined;
  const line = plan.craftClasses
    .find(({ id }) => id === owner?.classId)
    ?.propellants.find(({ propellantId }) => propellantId === tank?.propellantId);
  return line === undefined ? NO_LOSS : { kPerDay: line.kPerDay, cKgPerDay: line.cKgPerDay };
};
