/** A lander's engines through a campaign: ignitions and burn time of each since it was changed, and when it is due. */
import {
  afterBurns,
  type EngineBurn,
  type EngineCount,
  type EngineRules,
  mostUsed,
  NEW_ENGINE,
  newEngines,
} from "./engine-use.ts";

/** What one sortie asks of the engines. */
export interface EngineUse {
  readonly sortieId: string;
  readonly landerId: string;
  /** Whose engines; left out: the lander's own stage. */
  readonly stage?: string | null;
  /** When it leaves. */
  readonly at: number;
  readonly burns: readonly EngineBurn[];
  /** The stage is dropped in this sortie: the next one has new engines. */
  readonly isSpent?: boolean;
}

/** Engines of one lander changed for new ones. */
export interface EngineChange {
  readonly landerId: string;
  readonly stage?: string | null;
  readonly at: number;
  /** Which, counted from 1; null: all of them. */
  readonly engineNumbers: readonly number[] | null;
}

export type Exceeded = "ignitions" | "burn time";

/** One engine after one sortie. */
export interface EngineState extends EngineCount {
  /** Counted from 1. */
  readonly number: number;
  /** What this sortie takes over the rating: the engine must be changed before it. */
  readonly exceeds: readonly Exceeded[];
}

/** The state of the engines after one sortie; counts run since each engine's last change, this sortie included. */
export interface LifeRow {
  readonly sortieId: string;
  readonly at: number;
  readonly engines: readonly EngineState[];
  /** Of the engine that is used most; starts, and seconds. */
  readonly ignitions: number;
  readonly burnSeconds: number;
  /** Over all engines: what this sortie would exceed, and the numbers of the engines that must be changed before it. */
  readonly exceeds: readonly Exceeded[];
  readonly dueNumbers: readonly number[];
}

/** One serial, or one further stage of it, over the campaign. */
export interface EngineLife {
  readonly landerId: string;
  /** null: the lander's own stage. */
  readonly stage: string | null;
  readonly rows: readonly LifeRow[];
  /** The first sortie before which an engine must be changed; null: none. */
  readonly dueBefore: LifeRow | null;
}

const stateOf = (engine: EngineCount, index: number, rules: EngineRules): EngineState => {
  const exceeds: Exceeded[] = [];
  if (rules.ratedIgnitions !== null && engine.ignitions > rules.ratedIgnitions) exceeds.push("ignitions");
  if (rules.ratedBurnSeconds !== null && engine.burnSeconds > rules.ratedBurnSeconds) exceeds.push("burn time");
  return { ...engine, number: index + 1, exceeds };
};

const rowOf = (use: EngineUse, counts: readonly EngineCount[], rules: EngineRules): LifeRow => {
  const engines = counts.map((engine, index) => stateOf(engine, index, rules));
  const all = new Set(engines.flatMap(({ exceeds }) => exceeds));
  return {
    sortieId: use.sortieId,
    at: use.at,
    engines,
    ...mostUsed(counts),
    exceeds: (["ignitions", "burn time"] as const).filter((kind) => all.has(kind)),
    dueNumbers: engines.filter(({ exceeds }) => exceeds.length > 0).map(({ number }) => number),
  };
};

/**
 * Adds up the use of each engine of each stage of each lander in order of time; a change at or before a sortie starts the count of the
 * engines that it names anew. An engine is due before the first sortie that would take it over its rating: ten ignitions
 * at three a sortie fall due at the fourth.
 */
export const engineLife = (
  uses: readonly EngineUse[],
  changes: readonly EngineChange[],
  rulesOf: (landerId: string, stage: string | null) => EngineRules,
): EngineLife[] => {
  const ofStages = Map.groupBy(uses, ({ landerId, stage }) => JSON.stringify([landerId, stage ?? null]));
  return [...ofStages.values()].flatMap((used) => {
    const [first] = used;
    if (first === undefined) return [];
    const { landerId, stage = null } = first;
    const rules = rulesOf(landerId, stage);
    const ahead = changes
      .filter((change) => change.landerId === landerId && (change.stage ?? null) === stage)
      .toSorted((a, b) => a.at - b.at);
    let engines = newEngines(rules.count);
    const own = used.toSorted((a, b) => a.at - b.at);
    const rows = own.map((use): LifeRow => {
      while (ahead[0] !== undefined && ahead[0].at <= use.at) {
        const { engineNumbers } = ahead[0];
        engines = engines.map((engine, index) =>
          engineNumbers === null || engineNumbers.includes(index + 1) ? NEW_ENGINE : engine,
        );
        ahead.shift();
      }
      const after = afterBurns(use.burns, engines, rules);
      engines = use.isSpent === true ? newEngines(rules.count) : after;
      return rowOf(use, after, rules);
    });
    return [{ landerId, stage, rows, dueBefore: rows.find((row) => row.exceeds.length > 0) ?? null }];
  });
};
