/** The load of a sortie: backward passes repeated until reserve, mixture allowance and computed burns agree with it. */
import { PlanningError } from "../ground/failure.ts";
import { STANDARD_GRAVITY } from "../ground/quantity.ts";
import { runBackward } from "./backward.ts";
import { burnIsp, type CompiledSortie, compileSortie } from "./compile.ts";
import { enginesLit } from "./engine-use.ts";
import { provenClosure } from "./forward.ts";
import type { Lander } from "../entity/lander.ts";
import { flyAscent } from "./powered/ascent.ts";
import { flyDescent } from "./powered/descent.ts";
import type { Flown, Propulsion } from "./powered/flown.ts";
import type { BurnStep, Mission, Profile } from "../entity/profile.ts";
import { refuse, stepLabel } from "./refusal.ts";
import { enginesOf } from "./stage.ts";
import { burnedKg, fuelShare, massRatio, oxidiserShare } from "./rocket-equation.ts";
import { emptyStepMasses, massAt, type StepMasses } from "./step-masses.ts";

export interface Solution {
  readonly compiled: CompiledSortie;
  readonly masses: StepMasses;
  /** By step; null where nothing was integrated. */
  readonly flown: readonly (Flown | null)[];
  /** By pool, kg: reserve and mixture allowance within the end state. */
  readonly reserve: Float64Array;
  readonly allowance: Float64Array;
  /** Relative error of the forward run. */
  readonly closure: number;
}

const SETTLED = 1e-13;
const MAX_PASSES = 400;
/** A last step of this much leaves an error some ten times smaller (Δv hardly depends on the mass): a gram in 40 t. */
const SETTLED_MPERS = 1e-3;
/** Where the search of a computed burn's Δv begins, m/s: about what a thrust of twice the weight takes. */
const FIRST_GUESS_MPERS = 1850;
const MAX_FLIGHTS = 40;

/** What both mixture limits ask for beyond the nominal split of so much burned propellant: [oxidiser, fuel], kg. */
export const mixtureAllowance = (burnedKg: number, ratio: number, spreadPercent: number): readonly [number, number] => {
  const spread = spreadPercent / 100;
  return [
    burnedKg * (oxidiserShare(ratio * (1 + spread)) - oxidiserShare(ratio)),
    burnedKg * (fuelShare(ratio * (1 - spread)) - fuelShare(ratio)),
  ];
};

const burnedByEngines = (sortie: CompiledSortie, masses: StepMasses, stage: number): number => {
  let sum = 0;
  sortie.steps.forEach((step, i) => {
    if (step.kind === "burn" && step.isMain && step.stage === stage)
      sum += massAt(sortie, masses, i + 1) * Math.expm1(sortie.exponents[i] ?? 0);
  });
  return sum;
};

/** What must be left in each pool beyond the residual, kg. */
interface Held {
  readonly reserve: Float64Array;
  readonly allowance: Float64Array;
}

/** The reserve of the profile, held in the lander's own stage, by the masses of the last pass. */
const holdReserve = (rule: Profile["reserve"], sortie: CompiledSortie, masses: StepMasses, { reserve }: Held): void => {
  const [own] = sortie.stages;
  if (rule.kind === "mass") {
    for (const line of rule.lines) {
      const p = sortie.propellantIds.findIndex((id, q) => id === line.propellantId && sortie.poolStages[q] === 0);
      if (p < 0)
        refuse(`the lander has no tank for ${line.propellantId}, of which a reserve is asked for`, "reserve.lines");
      reserve[p] = line.massKg;
    }
    return;
  }
  if (rule.kind === "percent of load") {
    for (let p = 0; p < masses.n; p++)
      if (sortie.poolStages[p] === 0) reserve[p] = (rule.percent / 100) * (masses.stock[p] ?? 0);
    return;
  }
  const { engines, oxidiser, fuel } = own ?? {};
  if (!engines || oxidiser == null || fuel == null) return;
  // A lander that is dropped at the end still had it aboard before.
  const end = own?.partsAt ?? sortie.steps.length;
  const empty = massAt(sortie, masses, end) - (reserve[oxidiser] ?? 0) - (reserve[fuel] ?? 0);
  const burned = burnedKg(empty, rule.mPerS, engines.ispFullS);
  reserve[oxidiser] = burned * oxidiserShare(engines.mixtureRatio);
  reserve[fuel] = burned * fuelShare(engines.mixtureRatio);
};

/** Mixture allowance of each stage with engines, and the reserves of the further stages, by the masses of the last pass. */
const holdStages = (sortie: CompiledSortie, masses: StepMasses, { reserve, allowance }: Held): void => {
  sortie.stages.forEach(({ engines, oxidiser, fuel, reservePercent }, s) => {
    if (engines && oxidiser !== null && fuel !== null) {
      const burned = burnedByEngines(sortie, masses, s);
      const extra = mixtureAllowance(burned, engines.mixtureRatio, engines.mixtureSpreadPercent);
      allowance[oxidiser] = extra[0];
      allowance[fuel] = extra[1];
    }
    if (s === 0) return;
    for (let p = 0; p < masses.n; p++)
      if (sortie.poolStages[p] === s) reserve[p] = (reservePercent / 100) * (masses.stock[p] ?? 0);
  });
};

/** Writes what must be left into the end state, or into the step at which its stage parts. */
const leaveHeld = (sortie: CompiledSortie, { reserve, allowance }: Held, end: Float64Array): void => {
  for (let p = 0; p < end.length; p++) {
    const left = (sortie.residual[p] ?? 0) + (reserve[p] ?? 0) + (allowance[p] ?? 0);
    const partsAt = sortie.stages[sortie.poolStages[p] ?? 0]?.partsAt ?? null;
    end[p] = partsAt === null ? left : 0;
    const parting = partsAt === null ? undefined : sortie.steps[partsAt];
    if (parting?.kind === "drop") parting.left[p] = left;
  }
};

/** Passes until end state and load agree; refuses a reserve that feeds on itself. */
const settle = (profile: Pick<Profile, "reserve">, sortie: CompiledSortie, masses: StepMasses): Held => {
  const held: Held = { reserve: new Float64Array(masses.n), allowance: new Float64Array(masses.n) };
  const end = sortie.residual.slice();
  let before = -1;
  for (let pass = 0; pass < MAX_PASSES; pass++) {
    leaveHeld(sortie, held, end);
    runBackward(sortie, end, masses);
    const start = massAt(sortie, masses, 0);
    if (!Number.isFinite(start) || start > 1e12) break;
    if (Math.abs(start - before) <= SETTLED * start) return held;
    before = start;
    holdStages(sortie, masses, held);
    holdReserve(profile.reserve, sortie, masses, held);
  }
  throw new PlanningError(
    "refused",
    "No load is enough: what reserve, margins and allowance add, the burns eat up. Lower the reserve, the margins or the Δv.",
    "reserve",
  );
};

type IntegratedDeltaV = Extract<BurnStep["deltaV"], { readonly kind: "computed descent" | "computed ascent" }>;

const isIntegrated = (deltaV: BurnStep["deltaV"]): deltaV is IntegratedDeltaV =>
  deltaV.kind === "computed descent" || deltaV.kind === "computed ascent";

/** What is in the way of a computed burn; `thrust` says how much there is at which mass. */
const whyNotFlown = (deltaV: IntegratedDeltaV, thrust: string): string => {
  if (deltaV.kind === "computed descent") return `${thrust} is too little thrust to stop before the ground`;
  return deltaV.coastAboveKm === undefined
    ? `${thrust} is too little thrust to reach the orbit`
    : `with ${thrust} no turn leads to the orbit on a coast above ${String(deltaV.coastAboveKm)} km; a lower height, or another throttle, may do`;
};

/** Integrates a computed burn for the masses of the last pass; refuses a thrust that cannot do it. */
const fly = (
  lander: Lander,
  step: BurnStep,
  i: number,
  before: number,
  guess: Flown | null,
  withSamples: boolean,
): Flown | null => {
  const { deltaV } = step;
  if (!isIntegrated(deltaV)) return null;
  const engines = enginesOf(lander, step, i);
  const thrustN = engines.thrustN * enginesLit(engines, step) * step.throttle;
  const ispAt = (throttle: number): number => burnIsp(engines, throttle);
  const isDescent = deltaV.kind === "computed descent";
  const inOrbit = guess && isDescent ? massRatio(guess.orbitChangeMPerS, ispAt(step.throttle)) : 1;
  const propulsion: Propulsion = { acceleration: (thrustN * inOrbit) / before, throttle: step.throttle, ispAt };
  const orbitHeightM = deltaV.orbitKm * 1000;
  const search = { guess: guess?.root ?? null, withSamples };
  const flown = isDescent
    ? flyDescent({ orbitHeightM, touchdownMPerS: deltaV.touchdownMPerS, vertical: deltaV.vertical }, propulsion, search)
    : flyAscent(
        {
          orbitHeightM,
          riseM: deltaV.riseM,
          ...(deltaV.coastAboveKm !== undefined && { coastAboveM: deltaV.coastAboveKm * 1000 }),
        },
        propulsion,
        search,
      );
  return (
    flown ??
    refuse(
      `${stepLabel(step, i)} cannot be flown: ${whyNotFlown(deltaV, `${(thrustN / 1000).toFixed(0)} kN at ${before.toFixed(0)} kg`)}`,
      `steps.${String(i)}.deltaV`,
    )
  );
};

/**
 * Solves a sortie. Computed burns start from a stated guess and are integrated again at the masses just found, until
 * their Δv stands still to a millimetre a second; the forward run then proves the load (see {@link provenClosure}).
 * Throws "refused" for what cannot be meant or flown.
 */
export const solve = (lander: Lander, profile: Pick<Profile, "steps" | "reserve">, mission: Mission): Solution => {
  const compiled = compileSortie(lander, profile, mission);
  const masses = emptyStepMasses(compiled);
  const flown: (Flown | null)[] = profile.steps.map(() => null);
  const computed = profile.steps.flatMap((step, i) =>
    step.kind === "burn" && isIntegrated(step.deltaV) ? [{ step, i }] : [],
  );
  const useDeltaV = (step: BurnStep, i: number, deltaV: number, isp: number): void => {
    const withMargin = (deltaV + step.deltaV.allowanceMPerS) * (1 + step.marginPercent / 100);
    compiled.exponents[i] = withMargin / (isp * STANDARD_GRAVITY);
  };
  for (const { step, i } of computed)
    useDeltaV(step, i, FIRST_GUESS_MPERS, burnIsp(enginesOf(lander, step, i), step.throttle));
  let held = settle(profile, compiled, masses);
  for (let flight = 0; computed.length > 0; flight++) {
    if (flight >= MAX_FLIGHTS)
      refuse("the computed burns do not settle: thrust is too near to the least that can fly them", "steps");
    let change = 0;
    for (const { step, i } of computed) {
      const now = fly(lander, step, i, massAt(compiled, masses, i), flown[i] ?? null, false);
      if (!now) continue;
      change = Math.max(change, Math.abs(now.deltaVMPerS - (flown[i]?.deltaVMPerS ?? 0)));
      flown[i] = now;
      useDeltaV(step, i, now.deltaVMPerS, now.ispS);
    }
    held = settle(profile, compiled, masses);
    if (change <= SETTLED_MPERS) break;
  }
  // Only the flight that is shown is sampled.
  for (const { step, i } of computed) {
    const shown = fly(lander, step, i, massAt(compiled, masses, i), flown[i] ?? null, true);
    const used = flown[i];
    if (shown && used) flown[i] = { ...used, samples: shown.samples };
  }
  return { compiled, masses, flown, ...held, closure: provenClosure(compiled, masses) };
};
