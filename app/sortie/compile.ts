/** A profile and a lander turned into flat steps over numbered propellants, and everything refused that cannot be meant. */
import { STANDARD_GRAVITY } from "../ground/quantity.ts";
import { enginesLit } from "./engine-use.ts";
import { arrivingAtCache, compileCache, type CompiledCache, leftBefore } from "./cache.ts";
import { hardwareMasses } from "./hardware.ts";
import type { EngineSet, Lander } from "../entity/lander.ts";
import { poolsOf } from "./pools.ts";
import { enginesOf, partingSteps, type Stage, stageField, stageIndex, stagesOf, stageWords } from "./stage.ts";
import type { BurnStep, Mission, Profile } from "../entity/profile.ts";
import { transferBurnMPerS } from "./transfer-burn.ts";
import { missingCase } from "../ground/missing-case.ts";
import { refuse, stepLabel } from "./refusal.ts";
import { fuelShare, ispAtThrottle, oxidiserShare } from "./rocket-equation.ts";

/** Steps as the two passes see them; arrays run over the pools. */
export type CompiledStep =
  | {
      readonly kind: "burn";
      readonly isMain: boolean;
      /** Whose. */
      readonly stage: number;
      readonly shares: Float64Array;
    }
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

/** One stage as the passes see it; the lander's own is the first. */
export interface CompiledStage extends Stage {
  /** The step at which it parts; null: it comes home. */
  readonly partsAt: number | null;
  /** Pools that its engines burn; null: it has no engine. */
  readonly oxidiser: number | null;
  readonly fuel: number | null;
}

export interface CompiledSortie {
  /** Of each pool; see {@link poolsOf}. */
  readonly propellantIds: readonly string[];
  /** Stage of each pool. */
  readonly poolStages: readonly number[];
  readonly stages: readonly CompiledStage[];
  readonly steps: readonly CompiledStep[];
  readonly caches: readonly CompiledCache[];
  readonly residual: Float64Array;
  /** Everything that is not propellant, before each step and at the end; index 0 is departure. kg */
  readonly hardware: Float64Array;
  readonly persons: readonly number[];
  /** Δv·(1 + margin)/(Isp·g0) of each burn; 0 elsewhere, and for computed burns until they are flown. */
  readonly exponents: Float64Array;
}

/** The Isp of a burn at its throttle, s. */
export const burnIsp = (engines: EngineSet, throttle: number): number => {
  const { minimumThrottle, ispFullS, ispMinimumS } = engines;
  return ispAtThrottle(Math.min(1, Math.max(throttle, minimumThrottle)), minimumThrottle, ispFullS, ispMinimumS);
};

/** Refuses engines that are named twice, that there are not, or in another number than is to burn. */
const checkNames = (step: BurnStep, count: number, label: string, field: string): void => {
  const { engineNumbers, enginesLit: wanted } = step;
  if (engineNumbers === undefined) return;
  const refuseNames = (words: string): never => refuse(`${label} ${words}`, `${field}.engineNumbers`);
  const missing = engineNumbers.find((number) => number > count);
  if (missing !== undefined)
    refuseNames(`lights engine ${String(missing)} and ${stageWords(step.stage ?? null)} has ${String(count)}`);
  if (new Set(engineNumbers).size < engineNumbers.length) refuseNames("names an engine twice");
  if (wanted !== null && wanted !== engineNumbers.length)
    refuseNames(`names ${String(engineNumbers.length)} engines and lights ${String(wanted)}`);
};

const compileBurn = (engines: EngineSet, step: BurnStep, label: string, field: string): number => {
  const { count, minimumThrottle } = engines;
  const lit = enginesLit(engines, step);
  const whose = stageWords(step.stage ?? null);
  if (lit > count)
    refuse(`${label} lights ${String(lit)} engines and ${whose} has ${String(count)}`, `${field}.enginesLit`);
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
  return speed / (burnIsp(engines, step.throttle) * STANDARD_GRAVITY);
};

/** Reads an engine's propellants and how they share what it burns; refuses an engine of one propellant. */
const mainShares = (
  engines: EngineSet,
  at: (propellantId: string, field: string) => number,
  pools: number,
  place: string,
): { readonly oxidiser: number; readonly fuel: number; readonly shares: Float64Array } => {
  const oxidiser = at(engines.oxidiserId, `${place}.engines.oxidiserId`);
  const fuel = at(engines.fuelId, `${place}.engines.fuelId`);
  if (oxidiser === fuel) refuse("an engine needs two propellants, an oxidiser and a fuel", `${place}.engines.fuelId`);
  const shares = new Float64Array(pools);
  shares[oxidiser] = oxidiserShare(engines.mixtureRatio);
  shares[fuel] = fuelShare(engines.mixtureRatio);
  return { oxidiser, fuel, shares };
};

/**
 * Compiles a sortie. Refuses by name: a propellant without a tank, engines or throttle that the stage has not, a stage
 * without an engine that must burn, or one that is used after it was dropped, more cargo put off than is aboard, a cache
 * never left, never taken up or taken up twice.
 */
export const compileSortie = (lander: Lander, profile: Pick<Profile, "steps">, mission: Mission): CompiledSortie => {
  const stages = stagesOf(lander);
  const pools = poolsOf(stages);
  const n = pools.ids.length;
  const zeros = (): Float64Array => new Float64Array(n);
  const fillIn =
    (stage: number) =>
    <T extends { readonly propellantId: string }>(
      rows: readonly T[],
      value: (row: T) => number,
      field: string,
      into: Float64Array = zeros(),
    ): Float64Array => {
      for (const row of rows) into[pools.at(stage, row.propellantId, field)] = value(row);
      return into;
    };
  const fill = fillIn(0);
  const atIn =
    (stage: number) =>
    (propellantId: string, field: string): number =>
      pools.at(stage, propellantId, field);

  const k = zeros();
  const c = zeros();
  const residual = zeros();
  stages.forEach(({ tanks }, s) => {
    fillIn(s)(tanks, (tank) => tank.kPerDay, "lander.tanks", k);
    fillIn(s)(tanks, (tank) => tank.cKgPerDay, "lander.tanks", c);
    fillIn(s)(tanks, (tank) => tank.residualKg, "lander.tanks", residual);
  });
  const mains = stages.map(({ engines }, s) => (engines ? mainShares(engines, atIn(s), n, stageField(s)) : null));
  const thrusterShares = stages.map(({ thrusters }, s) =>
    thrusters.map(({ parts }) => {
      const sum = parts.reduce((total, part) => total + part.parts, 0);
      return fillIn(s)(parts, (part) => part.parts / sum, `${stageField(s)}.thrusters`);
    }),
  );
  // What the lander is described with must have its tanks, whether or not a step asks for it.
  fill(lander.fuelCells, (cell) => cell.kgPerKwh, "lander.fuelCells");
  fill(lander.crew, (need) => need.kgPerPersonDay, "lander.crew");
  const partsAt = partingSteps(lander, profile.steps);
  /** The stage that a step uses; refuses one that is no longer there. */
  const stageAt = (step: { readonly stage?: string | undefined }, i: number, label: string): number => {
    const s = stageIndex(lander, step.stage, label, `steps.${String(i)}.stage`);
    const gone = partsAt[s] ?? null;
    if (gone !== null && gone < i)
      refuse(
        `${label} uses ${stageWords(step.stage ?? null)} after it was dropped in step ${String(gone + 1)}`,
        `steps.${String(i)}.stage`,
      );
    return s;
  };

  const { hardware, persons } = hardwareMasses(lander, profile.steps, mission);
  const exponents = new Float64Array(profile.steps.length);
  const caches: CompiledCache[] = [];

  const steps = profile.steps.map((step, i): CompiledStep => {
    const field = `steps.${String(i)}`;
    const label = stepLabel(step, i);
    switch (step.kind) {
      case "burn": {
        const stage = stageAt(step, i, label);
        exponents[i] = compileBurn(enginesOf(lander, step, i), step, label, field);
        return { kind: "burn", isMain: true, stage, shares: mains[stage]?.shares ?? zeros() };
      }
      case "thruster burn": {
        const stage = stageAt(step, i, label);
        const systems = stages[stage]?.thrusters ?? [];
        const which = systems.findIndex((system) => system.name === step.system);
        const system = systems[which];
        const shares = thrusterShares[stage]?.[which];
        if (!system || !shares)
          return refuse(
            `${label} uses the thruster system "${step.system}", which ${stageWords(step.stage ?? null)} has not`,
            `${field}.system`,
          );
        const withMargin = 1 + step.marginPercent / 100;
        if (step.amount.kind === "mass") {
          const { massKg } = step.amount;
          return { kind: "expel", masses: shares.map((share) => share * massKg * withMargin) };
        }
        exponents[i] = (step.amount.mPerS * withMargin) / (system.ispS * STANDARD_GRAVITY);
        return { kind: "burn", isMain: false, stage, shares };
      }
      case "stay": {
        const stage = stageAt(step, i, label);
        const people = step.crew ?? persons[i] ?? 0;
        const kwhPerDay = step.powerKw * 24;
        // What nobody takes asks for no tank.
        const cells = kwhPerDay > 0 ? lander.fuelCells : [];
        const needs = people > 0 ? lander.crew : [];
        const perKwh = fillIn(stage)(
          cells,
          (cell) => cell.kgPerKwh,
          stage === 0 ? "lander.fuelCells" : `${field}.stage`,
        );
        const perPersonDay = fillIn(stage)(
          needs,
          (need) => need.kgPerPersonDay,
          stage === 0 ? "lander.crew" : `${field}.stage`,
        );
        const [own, ownC] = [k.slice(), c.slice()];
        for (const loss of step.losses) {
          const p = pools.at(
            stageIndex(lander, loss.stage, label, `${field}.losses`),
            loss.propellantId,
            `${field}.losses`,
          );
          own[p] = loss.kPerDay;
          ownC[p] = loss.cKgPerDay;
        }
        return {
          kind: "stay",
          days: step.days,
          k: own,
          c: ownC,
          draw: zeros().map((_, p) => kwhPerDay * (perKwh[p] ?? 0) + people * (perPersonDay[p] ?? 0)),
        };
      }
      case "load change":
        return { kind: "drop", left: zeros() };
      case "jettison":
        return { kind: "drop", left: fill(step.tanks, (tank) => tank.residualKg, `${field}.tanks`) };
      case "drop stage":
        // What is left in it is settled with the load: residual, reserve and mixture allowance.
        return { kind: "drop", left: zeros() };
      case "leave cache":
        caches.push(compileCache(profile.steps, step, i, fill));
        return { kind: "leave", cache: caches.length - 1 };
      case "take up cache":
        return {
          kind: "take",
          cache: leftBefore(caches, step, i),
          arriving: arrivingAtCache(step.arriveWith, residual, atIn(0), field),
        };
      default:
        return missingCase(step);
    }
  });
  return {
    propellantIds: pools.ids,
    poolStages: pools.stages,
    stages: stages.map((stage, s) => ({
      ...stage,
      partsAt: partsAt[s] ?? null,
      oxidiser: mains[s]?.oxidiser ?? null,
      fuel: mains[s]?.fuel ?? null,
    })),
    steps,
    caches,
    residual,
    hardware,
    persons,
    exponents,
  };
};
