/** Which engines a burn lights, and what that adds to the ignitions and burn time of each engine by its number. */
import type { EngineSet } from "../entity/lander.ts";
import type { BurnStep } from "../entity/profile.ts";

/** One burn as the engines see it. */
export interface EngineBurn {
  /** How many engines burn. */
  readonly lit: number;
  /** Which, counted from 1; null: left to the rule of the engine set. */
  readonly engineNumbers: readonly number[] | null;
  /** Starts of each that burns. */
  readonly ignitions: number;
  /** Of each that burns. */
  readonly burnSeconds: number;
}

/** What one engine has behind it. The first of a list is engine 1. */
export interface EngineCount {
  readonly ignitions: number;
  readonly burnSeconds: number;
}

/** What the count of wear has to know of the engines. */
export type EngineRules = Pick<EngineSet, "count" | "choice" | "ratedIgnitions" | "ratedBurnSeconds">;

export const NEW_ENGINE: EngineCount = { ignitions: 0, burnSeconds: 0 };

/** How many engines a burn lights: those it names, or as many as it says, or all. */
export const enginesLit = (engines: Pick<EngineSet, "count">, step: BurnStep): number =>
  step.engineNumbers?.length ?? step.enginesLit ?? engines.count;

/** How worn an engine is: the greater of its shares of the two ratings; where nothing is rated, its ignitions. */
const wear = (engine: EngineCount, { ratedIgnitions, ratedBurnSeconds }: EngineRules): number =>
  ratedIgnitions === null && ratedBurnSeconds === null
    ? engine.ignitions
    : Math.max(
        ratedIgnitions === null ? 0 : engine.ignitions / ratedIgnitions,
        ratedBurnSeconds === null ? 0 : engine.burnSeconds / ratedBurnSeconds,
      );

/**
 * Numbers of the engines that a burn lights, in rising order. Unless the burn names them: engines 1 to k where the set
 * lights the same ones every time (the default), else the k that are worn least, among equals those with less burn time,
 * then the lower numbers.
 */
export const chosenEngines = (
  burn: Pick<EngineBurn, "lit" | "engineNumbers">,
  before: readonly EngineCount[],
  rules: EngineRules,
): readonly number[] => {
  if (burn.engineNumbers !== null) return burn.engineNumbers;
  const numbers = before.map((_, index) => index + 1);
  if (rules.choice !== "least worn") return numbers.slice(0, burn.lit);
  const of = (number: number): EngineCount => before[number - 1] ?? NEW_ENGINE;
  return numbers
    .toSorted((a, b) => wear(of(a), rules) - wear(of(b), rules) || of(a).burnSeconds - of(b).burnSeconds || a - b)
    .slice(0, burn.lit)
    .toSorted((a, b) => a - b);
};

/** The engines after some burns, one after the other. `before` has as many engines as there are. */
export const afterBurns = (
  burns: readonly EngineBurn[],
  before: readonly EngineCount[],
  rules: EngineRules,
): readonly EngineCount[] =>
  burns.reduce((engines, burn) => {
    const chosen = new Set(chosenEngines(burn, engines, rules));
    return engines.map((engine, index) =>
      chosen.has(index + 1)
        ? { ignitions: engine.ignitions + burn.ignitions, burnSeconds: engine.burnSeconds + burn.burnSeconds }
        : engine,
    );
  }, before);

/** As many new engines as the set has. */
export const newEngines = (count: number): readonly EngineCount[] => Array.from({ length: count }, () => NEW_ENGINE);

/** The most that any one engine has. */
export const mostUsed = (engines: readonly EngineCount[]): EngineCount => ({
  ignitions: Math.max(0, ...engines.map(({ ignitions }) => ignitions)),
  burnSeconds: Math.max(0, ...engines.map(({ burnSeconds }) => burnSeconds)),
});
