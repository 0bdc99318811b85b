/** What an outage does to a whole plan: the forecast with it beside the forecast without, in kilograms, flights and sorties. */
import { PlanningError } from "../ground/failure.ts";
import { type Forecast, forecast } from "../forecast/forecast.ts";
import { type LossRate, ratePieces } from "../storage/loss-rate.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import type { LossBasis, LossPeriod } from "../entity/loss-period.ts";
import { balanceDuring } from "../storage/heat-periods.ts";
import { glance } from "../supply/glance.ts";
import type { SupplyStatus } from "../supply/answer.ts";

export interface OutageWhatIf {
  readonly tankIds: readonly string[];
  readonly fromAt: number;
  readonly untilAt: number;
  /** The coolers of the tanks' heat balances stand still; or a rate is stated. */
  readonly during: { readonly kind: "coolers off" } | ({ readonly kind: "stated" } & LossRate);
}

const REASON = "what if: outage";

const basisDuring = (during: OutageWhatIf["during"], period: LossPeriod | null): LossBasis | null => {
  if (during.kind === "stated") return { kind: "stated", kPerDay: during.kPerDay, cKgPerDay: during.cKgPerDay };
  if (period?.basis.kind !== "heat balance" || period.basis.coolers.length === 0) return null;
  return balanceDuring(period.basis, [{ kind: "cooler outage", cooler: null, fromAt: 0, untilAt: 1, reason: REASON }]);
};

/**
 * The plan with the outage laid over it. Throws "invalid input" if it ends before it begins, and "refused" if coolers are
 * to stand still where no heat balance with coolers is in force.
 */
export const planWithOutage = (plan: PlanSnapshot, outage: OutageWhatIf): PlanSnapshot => {
  const { fromAt, untilAt, during } = outage;
  if (!(untilAt > fromAt)) throw new PlanningError("invalid input", "The outage ends before it begins.", "untilAt");
  const added: LossPeriod[] = [];
  // Later periods outrank earlier ones, so every edge within the outage begins a piece of its own.
  for (const tankId of outage.tankIds) {
    const periods = plan.lossPeriods.filter((period) => period.tankId === tankId);
    for (const piece of ratePieces(periods, fromAt, untilAt)) {
      const basis = basisDuring(during, piece.period);
      if (basis === null) continue;
      added.push({
        // Of two periods that begin at one instant the greater id is in force, and "~" is greater than all an id may have.
        id: `~what-if-${added.length}`,
        tankId,
        planCaseId: plan.planCase.id,
        fromAt: piece.fromAt,
        untilAt: piece.untilAt,
        basis,
        reason: REASON,
        note: "",
      });
    }
  }
  if (added.length === 0) {
    throw new PlanningError(
      "refused",
      "No heat balance with coolers is in force for these tanks then. Describe their coolers, or state a rate for the outage.",
      "during",
    );
  }
  return { ...plan, lossPeriods: [...plan.lossPeriods, ...added] };
};

export interface PropellantOutageCost {
  readonly propellantId: string;
  readonly extraLostKg: number;
  /** What one flight leaves at depots on average in this plan, kg; null: no flight brings any. */
  readonly perFlightKg: number | null;
  readonly flights: number | null;
}

export interface PlanOutageCost {
  readonly byPropellant: readonly PropellantOutageCost[];
  /** Sorties that fare otherwise with the outage. */
  readonly sorties: readonly {
    readonly sortieId: string;
    readonly name: string;
    readonly before: SupplyStatus;
    readonly after: SupplyStatus;
  }[];
}

/** Mean of what arriving flights leave in the tanks, kg; null: none brings any. */
export const meanDeliveryKg = (seen: Forecast, propellantId: string): number | null => {
  const taken = seen.flights.flatMap((flight) =>
    flight.lines
      .filter((line) => line.propellantId === propellantId)
      .map((line) => line.taken.reduce((sum, { massKg }) => sum + massKg, 0)),
  );
  const brought = taken.filter((massKg) => massKg > 0);
  return brought.length === 0 ? null : brought.reduce((sum, massKg) => sum + massKg, 0) / brought.length;
};

/** Both forecasts run to the plan's horizon. Throws as {@link planWithOutage}. */
export const planOutageCost = (plan: PlanSnapshot, outage: OutageWhatIf): PlanOutageCost => {
  const changed = planWithOutage(plan, outage);
  const before = forecast(plan);
  const after = forecast(changed);
  const propellantOf = new Map(plan.tanks.map((tank) => [tank.id, tank.propellantId]));
  const lostOf = (seen: Forecast, propellantId: string): number =>
    seen.losses.reduce(
      (sum, { tankId, lostKg }) => (propellantOf.get(tankId) === propellantId ? sum + lostKg : sum),
      0,
    );
  const touched = new Set(outage.tankIds.map((tankId) => propellantOf.get(tankId)));
  const afterStatus = new Map(glance(changed, after).sorties.map((sortie) => [sortie.sortieId, sortie.status]));
  return {
    byPropellant: plan.propellants
      .filter(({ id }) => touched.has(id))
      .map(({ id }) => {
        const extraLostKg = lostOf(after, id) - lostOf(before, id);
        const perFlightKg = meanDeliveryKg(before, id);
        return {
          propellantId: id,
          extraLostKg,
          perFlightKg,
          flights: perFlightKg === null ? null : extraLostKg / perFlightKg,
        };
      }),
    sorties: glance(plan, before).sorties.flatMap(({ sortieId, name, status }) => {
      const then = afterStatus.get(sortieId);
      return then === undefined || then === status ? [] : [{ sortieId, name, before: status, after: then }];
    }),
  };
};
