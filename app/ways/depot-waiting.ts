/**
 * What a depot's tanks lose while the propellant of a sortie is brought together there: it comes evenly over the time from
 * one loading to the next, so that all of it is there at the loading, and the tanks lose it at the mean of the rates stated
 * for that time.
 */
import type { PlanSnapshot } from "../entity/plan.ts";
import { DAY_MS } from "../ground/quantity.ts";
import { phi1 } from "../storage/level.ts";
import { ratePieces } from "../storage/loss-rate.ts";

export interface DepotWaiting {
  readonly depotName: string;
  /** From one loading to the next. */
  readonly days: number;
  /** Of all tanks of a propellant together: dm/dt = −(k·m + c). */
  readonly lines: readonly { readonly propellantId: string; readonly kPerDay: number; readonly cKgPerDay: number }[];
}

/**
 * Kilograms lost while `massKg` (≥ 0) come evenly over `days` (≥ 0) into tanks that begin empty of it. From
 * dm/dt = q − k·m − c with m(0) = 0 and m(days) = massKg the inflow is q = c + massKg/(days·φ1(k·days)), and what comes
 * in beside `massKg` is lost. Source: linear first-order equation, as in storage/level.ts.
 */
export const lostWaiting = (massKg: number, kPerDay: number, cKgPerDay: number, days: number): number =>
  cKgPerDay * days + massKg * (1 / phi1(kPerDay * days) - 1);

/** Mean k and c of one tank's stated rates from `fromAt` to `untilAt`; the rate at that instant where both are one. */
const meanRate = (periods: PlanSnapshot["lossPeriods"], fromAt: number, untilAt: number) => {
  const end = Math.max(untilAt, fromAt + 1);
  let [k, c] = [0, 0];
  for (const piece of ratePieces(periods, fromAt, end)) {
    const share = (piece.untilAt - piece.fromAt) / (end - fromAt);
    k += share * piece.kPerDay;
    c += share * piece.cKgPerDay;
  }
  return { k, c };
};

/**
 * How the propellant of a sortie waits at the depot at which the first planned sortie loads. `statedDays` (≥ 0) takes the
 * place of the mean time from one planned loading there to the next. null: no planned sortie, or but one and no days stated.
 * k of several tanks is their mean by what may be put in, c their sum.
 */
export const depotWaiting = (
  { depots, sorties, tanks, lossPeriods }: Pick<PlanSnapshot, "depots" | "sorties" | "tanks" | "lossPeriods">,
  statedDays: number | null = null,
): DepotWaiting | null => {
  const planned = sorties.filter(({ status }) => status === "planned").toSorted((a, b) => a.loadAt - b.loadAt);
  const depot = depots.find(({ id }) => id === planned[0]?.depotId);
  const loadings = planned.filter(({ depotId }) => depotId === depot?.id).map(({ loadAt }) => loadAt);
  const [firstAt, lastAt] = [loadings[0], loadings.at(-1)];
  if (depot === undefined || firstAt === undefined || lastAt === undefined) return null;
  const days = statedDays ?? (loadings.length < 2 ? null : (lastAt - firstAt) / DAY_MS / (loadings.length - 1));
  if (days === null) return null;
  const own = tanks.filter(({ ownerKind, ownerId }) => ownerKind === "depot" && ownerId === depot.id);
  const lines = [...Map.groupBy(own, ({ propellantId }) => propellantId)].map(([propellantId, of]) => {
    const allKg = of.reduce((sum, { maximumFillKg }) => sum + maximumFillKg, 0);
    let [kPerDay, cKgPerDay] = [0, 0];
    for (const { id, maximumFillKg } of of) {
      const periods = lossPeriods.filter(({ tankId }) => tankId === id);
      const mean = meanRate(periods, firstAt - days * DAY_MS, lastAt);
      kPerDay += mean.k * (allKg > 0 ? maximumFillKg / allKg : 1 / of.length);
      cKgPerDay += mean.c;
    }
    return { propellantId, kPerDay, cKgPerDay };
  });
  return { depotName: depot.name, days, lines };
};
