/** Coolers that fail and are repaired: as outages of one run. */
import type { CompiledPlan } from "../forecast/compiled-plan.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import type { Outages } from "../forecast/run.ts";
import { DAY_MS } from "../ground/quantity.ts";
import type { RiskInputs } from "./inputs-in-force.ts";
import type { Taken } from "./slip-column.ts";
import { STREAM, keyHash, nextUnit, seedStream } from "./stream.ts";

export interface CoolerModel {
  readonly tank: number;
  readonly key: number;
  readonly meanBetweenMs: number;
  readonly meanRepairMs: number;
  readonly downK: number;
  readonly downC: number;
  /** Failures that a run has room for. */
  readonly room: number;
}

/** Beyond this number none happen: 8 more than a mean number and 6 standard deviations. */
const roomFor = (days: number, meanBetweenDays: number): number => {
  const mean = days / meanBetweenDays;
  return Math.min(100_000, Math.ceil(mean + 6 * Math.sqrt(mean)) + 8);
};

/** The coolers of a plan that can fail. */
export const coolerModels = (
  snapshot: PlanSnapshot,
  plan: CompiledPlan,
  inputs: RiskInputs,
  taken: (inputId: string) => Taken,
): readonly CoolerModel[] => {
  const days = (plan.horizonAt - plan.asOfAt) / DAY_MS;
  const atDepot = new Set(snapshot.tanks.filter((row) => row.ownerKind === "depot").map((row) => row.id));
  return plan.tankIds.flatMap((tankId, tank) => {
    if (!atDepot.has(tankId)) return [];
    const { inputId, law } = inputs.lawOf("cooler", tankId);
    if (law.kind === "none" || taken(inputId) !== "drawn") return [];
    return [
      {
        tank,
        key: keyHash(STREAM.cooler, tankId),
        meanBetweenMs: law.meanBetweenDays * DAY_MS,
        meanRepairMs: law.meanRepairDays * DAY_MS,
        downK: law.kPerDay,
        downC: law.cKgPerDay,
        room: roomFor(days, law.meanBetweenDays),
      },
    ];
  });
};

/** What failures and repairs of all coolers need. */
export const outageRoom = (coolers: readonly CoolerModel[]): number =>
  coolers.reduce((sum, { room }) => sum + 2 * room, 0);

const add = (outages: Outages, tank: number, at: number, k: number, c: number): void => {
  const n = outages.count;
  outages.at[n] = at;
  outages.tank[n] = tank;
  outages.kPerDay[n] = k;
  outages.cKgPerDay[n] = c;
  outages.count = n + 1;
};

/**
 * Draws one run's failures and adds them to its outages; the cooler runs at the beginning. While it is down the worse
 * of the two rates holds, also over a planned change: the engine sees to that. Returns whether it failed at all.
 */
export const drawCooler = (
  { tank, key, meanBetweenMs, meanRepairMs, downK, downC, room }: CoolerModel,
  { asOfAt, horizonAt }: { readonly asOfAt: number; readonly horizonAt: number },
  outages: Outages,
  { seed, replication }: { readonly seed: number; readonly replication: number },
): boolean => {
  seedStream(seed, key, replication);
  let at = asOfAt;
  let failures = 0;
  for (; failures < room; failures += 1) {
    at += Math.round(-meanBetweenMs * Math.log(nextUnit()));
    if (at > horizonAt) break;
    add(outages, tank, at, downK, downC);
    at += Math.round(-meanRepairMs * Math.log(nextUnit()));
    if (at <= horizonAt) add(outages, tank, at, 0, 0);
  }
  return failures > 0;
};
