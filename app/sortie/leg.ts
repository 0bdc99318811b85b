/** One leg of the sheet: what a step does to masses, propellants and engines. */
import { STANDARD_GRAVITY } from "../ground/quantity.ts";
import { burnIsp } from "./compile.ts";
import { type EngineBurn, enginesLit } from "./engine-use.ts";
import type { Lander } from "../entity/lander.ts";
import { LUNAR_GRAVITY } from "./moon.ts";
import type { Flown } from "./powered/flown.ts";
import type { ProfileStep } from "../entity/profile.ts";
import { burnSeconds } from "./rocket-equation.ts";
import type { Solution } from "./solve.ts";
import { byPropellant } from "./pools.ts";
import { enginesOf, stagesOf } from "./stage.ts";
import { cacheRow, massAt } from "./step-masses.ts";

/** Lists run over the propellants in the order of the sheet's lines, all stages added up. Masses in kg. */
export interface Leg {
  readonly stepIndex: number;
  readonly kind: ProfileStep["kind"];
  readonly name: string;
  /** Whose engines or thrusters burn, who feeds a stay, or what is dropped; null: the lander's own stage. */
  readonly stage: string | null;
  readonly massBeforeKg: number;
  readonly massAfterKg: number;
  readonly stockBeforeKg: readonly number[];
  readonly stockAfterKg: readonly number[];
  readonly burnedKg: readonly number[];
  readonly lostKg: readonly number[];
  readonly consumedKg: readonly number[];
  readonly leftBehindKg: readonly number[];
  /** Put into a cache (+) or taken from it (−). */
  readonly cachedKg: readonly number[];
  /** With margin and allowance, m/s. */
  readonly deltaVMPerS: number;
  readonly ispS: number | null;
  /** Of each lit engine. */
  readonly burnSeconds: number;
  readonly ignitions: number;
  /** What it asks of the main engines; null: nothing. */
  readonly engineBurn: EngineBurn | null;
  readonly days: number;
  /** Thrust of the lit engines at full over weight in lunar g, before and after; null: no burn of the engines. */
  readonly thrustToWeight: readonly [number, number] | null;
  /** The integrated flight, where Δv is computed. */
  readonly flown: Flown | null;
}

const difference = (a: readonly number[], b: readonly number[]): number[] => a.map((value, p) => value - (b[p] ?? 0));

const ispOf = (lander: Lander, step: ProfileStep, i: number, flown: Flown | null): number | null => {
  if (step.kind === "burn") return flown?.ispS ?? burnIsp(enginesOf(lander, step, i), step.throttle);
  if (step.kind !== "thruster burn") return null;
  const stage = stagesOf(lander).find(({ name }) => name === (step.stage ?? null));
  return stage?.thrusters.find(({ name }) => name === step.system)?.ispS ?? null;
};

/** What a cache lost while it waited over step i, kg by pool. */
const lostInCaches = (solution: Solution, i: number): number[] => {
  const { compiled, masses } = solution;
  const lost = compiled.propellantIds.map(() => 0);
  compiled.caches.forEach((cache, q) => {
    if (i <= cache.leftAt || i >= cache.takenAt) return;
    const [here, after] = [cacheRow(compiled, q, i), cacheRow(compiled, q, i + 1)];
    for (let p = 0; p < masses.n; p++)
      lost[p] = (lost[p] ?? 0) + (masses.cached[here + p] ?? 0) - (masses.cached[after + p] ?? 0);
  });
  return lost;
};

type Lines = ReturnType<typeof byPropellant>;

const legOf = (lander: Lander, step: ProfileStep, i: number, solution: Solution, lines: Lines): Leg => {
  const { compiled, masses, flown } = solution;
  const { n } = masses;
  const sumUp = (ofPool: (p: number) => number): number[] =>
    lines.map(({ pools }) => pools.reduce((sum, p) => sum + ofPool(p), 0));
  const row = (state: number): number[] => sumUp((p) => masses.stock[state * n + p] ?? 0);
  const [stockBeforeKg, stockAfterKg] = [row(i), row(i + 1)];
  const used = difference(stockBeforeKg, stockAfterKg);
  const none = used.map(() => 0);
  const plan = compiled.steps[i];
  const isBurn = plan?.kind === "burn" || plan?.kind === "expel";
  const cachesLost = lostInCaches(solution, i);
  const inCaches = sumUp((p) => cachesLost[p] ?? 0);
  const consumedKg = plan?.kind === "stay" ? sumUp((p) => (plan.draw[p] ?? 0) * plan.days) : none;
  const ispS = ispOf(lander, step, i, flown[i] ?? null);
  const [massBeforeKg, massAfterKg] = [massAt(compiled, masses, i), massAt(compiled, masses, i + 1)];
  const isEngine = step.kind === "burn";
  const engines = isEngine ? enginesOf(lander, step, i) : null;
  const lit = isEngine && engines ? enginesLit(engines, step) : 0;
  const fullN = (engines?.thrustN ?? 0) * lit;
  const seconds =
    isEngine && ispS !== null
      ? burnSeconds(
          used.reduce((a, b) => a + b, 0),
          ispS,
          fullN * step.throttle,
        )
      : 0;
  const starts = isEngine ? step.ignitions : 0;
  return {
    stepIndex: i,
    kind: step.kind,
    name: step.name,
    stage: "stage" in step ? (step.stage ?? null) : null,
    massBeforeKg,
    massAfterKg,
    stockBeforeKg,
    stockAfterKg,
    burnedKg: isBurn ? used : none,
    lostKg: plan?.kind === "stay" ? difference(used, consumedKg).map((lost, p) => lost + (inCaches[p] ?? 0)) : none,
    consumedKg,
    leftBehindKg: plan?.kind === "drop" ? used : none,
    cachedKg: plan?.kind === "leave" || plan?.kind === "take" ? used : none,
    deltaVMPerS: ispS === null ? 0 : (compiled.exponents[i] ?? 0) * ispS * STANDARD_GRAVITY,
    ispS,
    burnSeconds: seconds,
    ignitions: starts,
    engineBurn: isEngine
      ? { lit, engineNumbers: step.engineNumbers ?? null, ignitions: starts, burnSeconds: seconds }
      : null,
    days: step.kind === "stay" ? step.days : 0,
    thrustToWeight: isEngine ? [fullN / (massBeforeKg * LUNAR_GRAVITY), fullN / (massAfterKg * LUNAR_GRAVITY)] : null,
    flown: flown[i] ?? null,
  };
};

/** All legs in order. */
export const legsOf = (lander: Lander, steps: readonly ProfileStep[], solution: Solution): Leg[] => {
  const lines = byPropellant(solution.compiled.propellantIds);
  return steps.map((step, i) => legOf(lander, step, i, solution, lines));
};
