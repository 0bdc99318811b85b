/** Coolers that fail and are repaired: as rate changes of one run, laid over those of the plan. */
import { type CompiledPlan, EVENT } from "../forecast/compiled-plan.ts";
import type { PlanSnapshot } from "../forecast/plan.ts";
import { DAY_MS } from "../ledger/quantity.ts";
import type { RiskInputs } from "./inputs-in-force.ts";
import type { Taken } from "./slip-column.ts";
import { STREAM, keyHash, nextUnit, seedStream } from "./stream.ts";

/** Loss rates of a tank from an instant on, as the plan has them. */
interface PlannedRate {
  readonly at: number;
  readonly k: number;
  readonly c: number;
  /** Row of the plan's rate changes; −1: the rate at the beginning. */
  readonly index: number;
}

export interface CoolerModel {
  readonly tank: number;
  readonly key: number;
  readonly meanBetweenMs: number;
  readonly meanRepairMs: number;
  readonly downK: number;
  readonly downC: number;
  readonly maximumKg: number;
  readonly planned: readonly PlannedRate[];
  /** Rows of rate changes and places of events that a run may fill. */
  readonly firstSpare: number;
  readonly firstEvent: number;
  readonly spares: number;
}

/** Failures that a run has room for, beyond which none happen: 8 more than a mean number and 6 standard deviations. */
const roomFor = (days: number, meanBetweenDays: number): number => {
  const mean = days / meanBetweenDays;
  return Math.min(100_000, Math.ceil(mean + 6 * Math.sqrt(mean)) + 8);
};

const plannedRates = (plan: CompiledPlan, tank: number): readonly PlannedRate[] => {
  const rates: PlannedRate[] = [
    { at: plan.asOfAt, k: plan.tankK[tank] as number, c: plan.tankC[tank] as number, index: -1 },
  ];
  plan.eventKind.forEach((kind, event) => {
    const index = plan.eventIndex[event] as number;
    if (kind === EVENT.rate && plan.rateTank[index] === tank)
      rates.push({
        at: plan.eventAt[event] as number,
        k: plan.rateK[index] as number,
        c: plan.rateC[index] as number,
        index,
      });
  });
  return rates;
};

/** The coolers of a plan that can fail. `plan`: before room is made for their events. */
export const coolerModels = (
  snapshot: PlanSnapshot,
  plan: CompiledPlan,
  inputs: RiskInputs,
  taken: (inputId: string) => Taken,
): readonly CoolerModel[] => {
  let nextSpare = plan.rateTank.length;
  let nextEvent = plan.eventAt.length;
  const days = (plan.horizonAt - plan.asOfAt) / DAY_MS;
  const atDepot = new Set(snapshot.tanks.filter((row) => row.ownerKind === "depot").map((row) => row.id));
  return plan.tankIds.flatMap((tankId, tank) => {
    if (!atDepot.has(tankId)) return [];
    const { inputId, law } = inputs.lawOf("cooler", tankId);
    if (law.kind === "none" || taken(inputId) !== "drawn") return [];
    const planned = plannedRates(plan, tank);
    const spares = 2 * roomFor(days, law.meanBetweenDays);
    const model: CoolerModel = {
      tank,
      key: keyHash(STREAM.cooler, tankId),
      meanBetweenMs: law.meanBetweenDays * DAY_MS,
      meanRepairMs: law.meanRepairDays * DAY_MS,
      downK: law.kPerDay,
      downC: law.cKgPerDay,
      maximumKg: plan.tankMaximumKg[tank] as number,
      planned,
      firstSpare: nextSpare,
      firstEvent: nextEvent,
      spares,
    };
    nextSpare += spares;
    nextEvent += spares;
    return [model];
  });
};

/** Share of a full tank lost in a day: by this the worse of two rates is told. */
const lossShare = (k: number, c: number, maximumKg: number): number => k + (maximumKg > 0 ? c / maximumKg : 0);

/**
 * Draws one run's failures and writes them into the plan as rate changes; the cooler runs at the beginning. While it
 * is down the worse of the two rates holds, also over a planned change. Returns whether it failed at all.
 */
export const drawCooler = (
  model: CoolerModel,
  plan: CompiledPlan,
  { seed, replication }: { readonly seed: number; readonly replication: number },
): boolean => {
  const { planned, downK, downC, maximumKg, firstSpare, firstEvent, spares } = model;
  const downShare = lossShare(downK, downC, maximumKg);
  const isWorse = (rate: PlannedRate): boolean => downShare > lossShare(rate.k, rate.c, maximumKg);
  seedStream(seed, model.key, replication);
  let used = 0;
  let at = plan.asOfAt;
  let next = 1;
  // What an earlier run wrote over planned changes is put right as they are passed.
  const pass = (until: number, isDown: boolean): void => {
    for (; next < planned.length && (planned[next] as PlannedRate).at <= until; next += 1) {
      const rate = planned[next] as PlannedRate;
      const takes = isDown && isWorse(rate);
      plan.rateK[rate.index] = takes ? downK : rate.k;
      plan.rateC[rate.index] = takes ? downC : rate.c;
    }
  };
  const change = (k: number, c: number): void => {
    plan.eventAt[firstEvent + used] = at;
    plan.rateK[firstSpare + used] = k;
    plan.rateC[firstSpare + used] = c;
    used += 1;
  };
  for (let room = spares; room >= 2; room -= 2) {
    at += Math.round(-model.meanBetweenMs * Math.log(nextUnit()));
    if (at > plan.horizonAt) break;
    pass(at, false);
    const before = planned[next - 1] as PlannedRate;
    if (isWorse(before)) change(downK, downC);
    else change(before.k, before.c);
    at += Math.round(-model.meanRepairMs * Math.log(nextUnit()));
    pass(Math.min(at, plan.horizonAt), true);
    const after = planned[next - 1] as PlannedRate;
    if (at > plan.horizonAt) break;
    change(after.k, after.c);
  }
  pass(plan.horizonAt, false);
  for (let n = used; n < spares; n += 1) plan.eventAt[firstEvent + n] = Infinity;
  return used > 0;
};
