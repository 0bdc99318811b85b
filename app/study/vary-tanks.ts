/** Inputs about tanks: loss, outages, size, reserve. */
import type { CompiledPlan } from "../forecast/compiled-plan.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import type { Tank } from "../entity/tank.ts";
import { instantAsked } from "./instant-asked.ts";
import { startOf } from "../entity/plan.ts";
import { DAY_MS } from "../ground/quantity.ts";
import { planWithOutage } from "../losses/plan-outage.ts";
import { periodInForce, rateOf, ratePieces } from "../storage/loss-rate.ts";
import type { InputAsked } from "./question.ts";
import { idle, rowNamed, type Setter, type Varied } from "./varied.ts";

type Of<Q extends InputAsked["quantity"]> = Extract<InputAsked, { readonly quantity: Q }>;

const depotTanks = (plan: PlanSnapshot): readonly Tank[] => plan.tanks.filter(({ ownerKind }) => ownerKind === "depot");

const losesNothing = (plan: PlanSnapshot, tankId: string): boolean =>
  ratePieces(
    plan.lossPeriods.filter((period) => period.tankId === tankId),
    startOf(plan),
    plan.horizonAt,
  ).every(({ kPerDay, cKgPerDay }) => kPerDay === 0 && cKgPerDay === 0);

/** Every loss period of the tanks with its rates times a factor. */
const scaled = (plan: PlanSnapshot, tankIds: ReadonlySet<string>, factor: number): PlanSnapshot => {
  if (factor === 1) return plan;
  const lossPeriods = plan.lossPeriods.map((period) => {
    if (!tankIds.has(period.tankId)) return period;
    const { kPerDay, cKgPerDay } = rateOf(period.basis);
    const basis = { kind: "stated" as const, kPerDay: kPerDay * factor, cKgPerDay: cKgPerDay * factor };
    return { ...period, basis };
  });
  return { ...plan, lossPeriods };
};

const factorSetter = (compiled: CompiledPlan, tankIds: ReadonlySet<string>, factorOf: (value: number) => number) => {
  const tanks = compiled.tankIds.flatMap((id, tank) => (tankIds.has(id) ? [tank] : []));
  const set: Setter = ({ input }, value) => {
    const factor = factorOf(value);
    for (const tank of tanks) input.rateFactor[tank] = factor;
  };
  return set;
};

export const lossFactor = (plan: PlanSnapshot, asked: Of<"loss factor">, field: string): Varied => {
  const one = asked.tank === undefined ? null : rowNamed(depotTanks(plan), asked.tank, "depot tank", `${field}.tank`);
  const tanks = one === null ? depotTanks(plan) : [one];
  const ids = new Set(tanks.map(({ id }) => id));
  if (tanks.every(({ id }) => losesNothing(plan, id)))
    idle(
      `${one === null ? "No depot tank" : one.name} loses ${one === null ? "anything" : "nothing"} in this plan: a factor on it changes nothing.`,
      field,
    );
  return {
    words: `loss factor of ${one === null ? "every depot tank" : one.name}`,
    unit: "",
    today: 1,
    least: 0,
    most: 1000,
    whyLimits: "A factor on losses lies between 0 and 1000.",
    writes: tanks.map(({ id }) => `loss ${id}`),
    change: (of, value) => scaled(of, ids, value),
    setter: (compiled) => factorSetter(compiled, ids, (value) => value),
  };
};

/** What the full tank loses where the forecast begins, as a share of maximum fill a day. */
export const fullTankRate = (plan: PlanSnapshot, row: Tank): number => {
  const periods = plan.lossPeriods.filter(({ tankId }) => tankId === row.id);
  const period = periodInForce(periods, plan.asOfAt);
  if (period === null || row.maximumFillKg <= 0) return 0;
  const { kPerDay, cKgPerDay } = rateOf(period.basis);
  return kPerDay + cKgPerDay / row.maximumFillKg;
};

export const lossRate = (plan: PlanSnapshot, asked: Of<"loss rate">, field: string): Varied => {
  const row = rowNamed(depotTanks(plan), asked.tank, "depot tank", `${field}.tank`);
  const today = 100 * fullTankRate(plan, row);
  if (!(today > 0))
    idle(
      `${row.name} loses nothing at the as-of instant, so that there is no rate to go up or down from. State a loss period first.`,
      field,
    );
  const ids = new Set([row.id]);
  return {
    words: `loss rate of ${row.name}`,
    unit: "%/day",
    today,
    least: 0,
    most: 100,
    whyLimits: "A loss rate lies between 0 and 100 %/day.",
    writes: [`loss ${row.id}`],
    change: (of, value) => scaled(of, ids, value / today),
    setter: (compiled) => factorSetter(compiled, ids, (value) => value / today),
  };
};

export const coolerOutage = (plan: PlanSnapshot, asked: Of<"cooler outage">, field: string): Varied => {
  const row = rowNamed(depotTanks(plan), asked.tank, "depot tank", `${field}.tank`);
  const fromAt = instantAsked(asked.from, `${field}.from`);
  if (fromAt < plan.asOfAt || fromAt >= plan.horizonAt)
    idle(
      "The outage begins before the as-of instant, or after the end of the plan: the forecast would not see it.",
      `${field}.from`,
    );
  const change = (of: PlanSnapshot, value: number): PlanSnapshot =>
    value > 0
      ? planWithOutage(of, {
          tankIds: [row.id],
          fromAt,
          untilAt: fromAt + Math.max(1, Math.round(value * DAY_MS)),
          during: { kind: "coolers off" },
        })
      : of;
  // Where no cooler is described it is said now, not at the first point.
  change(plan, 1);
  return {
    words: `cooler outage of ${row.name}`,
    unit: "days",
    today: 0,
    least: 0,
    most: (plan.horizonAt - fromAt) / DAY_MS,
    whyLimits: "The outage would last beyond the end of the plan, where nothing is forecast.",
    writes: [`outage ${row.id}`],
    change,
  };
};

const withTank = (plan: PlanSnapshot, id: string, edit: (row: Tank) => Tank): PlanSnapshot => ({
  ...plan,
  tanks: plan.tanks.map((row) => (row.id === id ? edit(row) : row)),
});

export const tankSize = (plan: PlanSnapshot, asked: Of<"tank size">, field: string): Varied => {
  const row = rowNamed(depotTanks(plan), asked.tank, "depot tank", `${field}.tank`);
  const opening = plan.opening.find(({ tankId }) => tankId === row.id)?.massKg ?? 0;
  return {
    words: `size of ${row.name}`,
    unit: "kg",
    today: row.maximumFillKg,
    least: Math.max(opening, row.heelKg, row.reserveKg, 1),
    most: 1e9,
    whyLimits: `The tank must hold what is in it today, its heel and its reserve, and at most a million tonnes.`,
    writes: [`size ${row.id}`],
    change: (of, value) =>
      withTank(of, row.id, (now) => ({
        ...now,
        maximumFillKg: value,
        volumeM3: now.volumeM3 === null ? null : (now.volumeM3 * value) / row.maximumFillKg,
      })),
  };
};

export const tankReserve = (plan: PlanSnapshot, asked: Of<"reserve">, field: string): Varied => {
  const row = rowNamed(depotTanks(plan), asked.tank, "depot tank", `${field}.tank`);
  return {
    words: `reserve in ${row.name}`,
    unit: "kg",
    today: row.reserveKg,
    least: row.heelKg,
    most: row.maximumFillKg,
    whyLimits: "A reserve counts from empty: it is not below the heel, nor above the maximum fill.",
    writes: [`reserve ${row.id}`],
    change: (of, value) => withTank(of, row.id, (now) => ({ ...now, reserveKg: value })),
  };
};
