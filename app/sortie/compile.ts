/** A profile and a lander turned into flat steps over numbered propellants, and everything refused that cannot be meant. */
import { STANDARD_GRAVITY } from "../ground/quantity.ts";
import { enginesLit } from "./engine-use.ts";
import { arrivingAtCache, compileCache, type CompiledCache, leftBefore } from "./cache.ts";
import { hardwareMasses } from "./hardware.ts";
import type { Lander } from "../entity/lander.ts";
import type { BurnStep, Mission, Profile } from "../entity/profile.ts";
import { transferBurnMPerS } from "./transfer-burn.ts";
import { missingCase } from "../ground/missing-case.ts";
import { refuse, stepLabel } from "./refusal.ts";
import { fuelShare, ispAtThrottle, oxidiserShare } from "./rocket-equation.ts";

/** Steps as the two passes see them; arrays run over the propellants. */
export type CompiledStep =
  | { readonly kind: "burn"; readonly isMain: boolean; readonly shares: Float64Array }
  | { readonly kind: "expel"; readonly masses: Float64Array }
  | {
      readonly kind: "stay";
      readonly days: number;
      readonly k: Float64Array;
      readonly c: Float64Array;
      readonly draw: Float64Array;
    }
  | { readonly kind: "drop"; readonly left: Float64Array }
  | { readonly kind: "leave"; readonly cache: number }
  | { readonly kind: "take"; readonly cache: number; readonly arriving: Float64Array };

export interface CompiledSortie {
  readonly propellantIds: readonly string[];
  readonly steps: readonly CompiledStep[];
  readonly caches: readonly CompiledCache[];
  readonly residual: Float64Array;
  /** Everything that is not propellant, before each step and at the end; index 0 is departure. kg */
  readonly hardware: Float64Array;
  readonly persons: readonly number[];
  /** Δv·(1 + margin)/(Isp·g0) of each burn; 0 elsewhere, and for computed burns until they are flown. */
  readonly exponents: Float64Array;
  readonly oxidiser: number;
  readonly fuel: number;
}

/** The Isp of a burn at its throttle, s. */
export const burnIsp = (lander: Lander, throttle: number): number => {
  const { minimumThrottle, ispFullS, ispMinimumS } = lander.engines;
  return ispAtThrottle(Math.min(1, Math.max(throttle, minimumThrottle)), minimumThrottle, ispFullS, ispMinimumS);
};

const positionsOf = (lander: Lander): { ids: string[]; at: (propellantId: string, field: string) => number } => {
  const ids = lander.tanks.map((tank) => tank.propellantId);
  ids.forEach((propellantId, i) => {
    if (ids.indexOf(propellantId) !== i)
      refuse(`the lander has two tanks of ${propellantId}; add their volumes up in one`, `lander.tanks.${String(i)}`);
  });
  const at = (propellantId: string, field: string): number => {
    const index = ids.indexOf(propellantId);
    return index >= 0 ? index : refuse(`the lander has no tank for ${propellantId}, which this asks for`, field);
  };
  return { ids, at };
};

/** Refuses engines that are named twice, that there are not, or in another number than is to burn. */
const checkNames = (step: BurnStep, count: number, label: string, field: string): void => {
  const { engineNumbers, enginesLit: wanted } = step;
  if (engineNumbers === undefined) return;
  const refuseNames = (words: string): never => refuse(`${label} ${words}`, `${field}.engineNumbers`);
  const missing = engineNumbers.find((number) => number > count);
  if (missing !== undefined) refuseNames(`lights engine ${String(missing)} and the lander has ${String(count)}`);
  if (new Set(engineNumbers).size < engineNumbers.length) refuseNames("names an engine twice");
  if (wanted !== null && wanted !== engineNumbers.length)
    refuseNames(`names ${String(engineNumbers.length)} engines and lights ${String(wanted)}`);
};

const compileBurn = (lander: Lander, step: BurnStep, label: string, field: string): number => {
  const { count, minimumThrottle } = lander.engines;
  const lit = enginesLit(lander, step);
  if (lit > count)
    refuse(`${label} lights ${String(lit)} engines and the lander has ${String(count)}`, `${field}.enginesLit`);
  checkNames(step, count, label, field);
  if (step.throttle < minimumThrottle)
    refuse(
      `${label} runs at ${String(step.throttle * 100)} % of thrust; the engine's lowest is ${String(minimumThrottle * 100)} %`,
      `${field}.throttle`,
    );
  const { deltaV } = step;
  if (deltaV.kind === "computed descent" && step.phase !== "descent")
    refuse(`${label} computes a descent, so its phase must be descent`, `${field}.phase`);
  if (deltaV.kind === "computed ascent" && step.phase !== "ascent")
    refuse(`${label} computes an ascent, so its phase must be ascent`, `${field}.phase`);
  if (deltaV.kind === "computed descent" && deltaV.vertical && deltaV.vertical.fromSpeedMPerS < deltaV.touchdownMPerS)
    refuse(`${label} touches down faster than its vertical phase begins`, `${field}.deltaV.vertical.fromSpeedMPerS`);
  if (deltaV.kind === "computed descent" || deltaV.kind === "computed ascent") return 0;
  if (deltaV.kind === "computed transfer" && step.phase !== "transfer")
    refuse(`${label} computes a transfer, so its phase must be transfer`, `${field}.phase`);
  const base = deltaV.kind === "stated" ? deltaV.mPerS : transferBurnMPerS(deltaV);
  const speed = (base + deltaV.allowanceMPerS) * (1 + step.marginPercent / 100);
  return speed / (burnIsp(lander, step.throttle) * STANDARD_GRAVITY);
};

/**
 * Compiles a sortie. Refuses by name: a propellant without a tank, engines or throttle that the lander has not, more
 * cargo put off than is aboard, a cache never left, never taken up or taken up twice.
 */
export const compileSortie = (lander: Lander, profile: Pick<Profile, "steps">, mission: Mission): CompiledSortie => {
  const { ids, at } = positionsOf(lander);
  const n = ids.length;
  const zeros = (): Float64Array => new Float64Array(n);
  const fill = <T extends { readonly propellantId: string }>(
    rows: readonly T[],
    value: (row: T) => number,
    field: string,
    into: Float64Array = zeros(),
  ): Float64Array => {
    for (const row of rows) into[at(row.propellantId, field)] = value(row);
    return into;
  };

  const { engines } = lander;
  const oxidiser = at(engines.oxidiserId, "lander.engines.oxidiserId");
  const fuel = at(engines.fuelId, "lander.engines.fuelId");
  if (oxidiser === fuel) refuse("an engine needs two propellants, an oxidiser and a fuel", "lander.engines.fuelId");
  const mainShares = zeros();
  mainShares[oxidiser] = oxidiserShare(engines.mixtureRatio);
  mainShares[fuel] = fuelShare(engines.mixtureRatio);
  const thrusterShares = lander.thrusters.map(({ parts }) => {
    const sum = parts.reduce((total, part) => total + part.parts, 0);
    return fill(parts, (part) => part.parts / sum, "lander.thrusters");
  });
  const k = fill(lander.tanks, (tank) => tank.kPerDay, "lander.tanks");
  const c = fill(lander.tanks, (tank) => tank.cKgPerDay, "lander.tanks");
  const residual = fill(lander.tanks, (tank) => tank.residualKg, "lander.tanks");
  const perKwh = fill(lander.fuelCells, (cell) => cell.kgPerKwh, "lander.fuelCells");
  const perPersonDay = fill(lander.crew, (need) => need.kgPerPersonDay, "lander.crew");

  const { hardware, persons } = hardwareMasses(lander, profile.steps, mission);
  const exponents = new Float64Array(profile.steps.length);
  const caches: CompiledCache[] = [];

  const steps = profile.steps.map((step, i): CompiledStep => {
    const field = `steps.${String(i)}`;
    const label = stepLabel(step, i);
    switch (step.kind) {
      case "burn":
        exponents[i] = compileBurn(lander, step, label, field);
        return { kind: "burn", isMain: true, shares: mainShares };
      case "thruster burn": {
        const which = lander.thrusters.findIndex((system) => system.name === step.system);
        const system = lander.thrusters[which];
        const shares = thrusterShares[which];
        if (!system || !shares)
          return refuse(
            `${label} uses the thruster system "${step.system}", which the lander has not`,
            `${field}.system`,
          );
        const withMargin = 1 + step.marginPercent / 100;
        if (step.amount.kind === "mass") {
          const { massKg } = step.amount;
          return { kind: "expel", masses: shares.map((share) => share * massKg * withMargin) };
        }
        exponents[i] = (step.amount.mPerS * withMargin) / (system.ispS * STANDARD_GRAVITY);
        return { kind: "burn", isMain: false, shares };
      }
      case "stay": {
        const people = step.crew ?? persons[i] ?? 0;
        const kwhPerDay = step.powerKw * 24;
        return {
          kind: "stay",
          days: step.days,
          k: fill(step.losses, (loss) => loss.kPerDay, `${field}.losses`, k.slice()),
          c: fill(step.losses, (loss) => loss.cKgPerDay, `${field}.losses`, c.slice()),
          draw: zeros().map((_, p) => kwhPerDay * (perKwh[p] ?? 0) + people * (perPersonDay[p] ?? 0)),
        };
      }
      case "load change":
        return { kind: "drop", left: zeros() };
      case "jettison":
        return { kind: "drop", left: fill(step.tanks, (tank) => tank.residualKg, `${field}.tanks`) };
      case "leave cache":
        caches.push(compileCache(profile.steps, step, i, fill));
        return { kind: "leave", cache: caches.length - 1 };
      case "take up cache":
        return {
          kind: "take",
          cache: leftBefore(caches, step, i),
          arriving: arrivingAtCache(step.arriveWith, residual, at, field),
        };
      default:
        return missingCase(step);
    }
  });
  return {
    propellantIds: ids,
    steps,
    caches,
    residual,
    hardware,
    persons,
    exponents,
    oxidiser,
    fuel,
  };
};
