/** The tanks of all stages numbered in one row: what each pass runs over. A pool is one propellant in one stage. */
import { refuse } from "./refusal.ts";
import { type Stage, stageField, stageWords } from "./stage.ts";

export interface Pools {
  /** Propellant of each pool; the lander's own stage first, its tanks in their order. */
  readonly ids: readonly string[];
  /** Stage of each pool. */
  readonly stages: readonly number[];
  /** The pool of a propellant in a stage; refuses a stage without such a tank. */
  readonly at: (stage: number, propellantId: string, field: string) => number;
}

/** Numbers the tanks. Refuses two of one propellant in one stage. */
export const poolsOf = (stages: readonly Stage[]): Pools => {
  const ids: string[] = [];
  const owners: number[] = [];
  const places = stages.map(({ name, tanks }, s) => {
    const indexOf = new Map<string, number>();
    tanks.forEach(({ propellantId }, i) => {
      if (indexOf.has(propellantId))
        refuse(
          `${stageWords(name)} has two tanks of ${propellantId}; add their volumes up in one`,
          `${stageField(s)}.tanks.${String(i)}`,
        );
      indexOf.set(propellantId, ids.length);
      ids.push(propellantId);
      owners.push(s);
    });
    return indexOf;
  });
  const at = (stage: number, propellantId: string, field: string): number =>
    places[stage]?.get(propellantId) ??
    refuse(`${stageWords(stages[stage]?.name ?? null)} has no tank for ${propellantId}, which this asks for`, field);
  return { ids, stages: owners, at };
};

/** The pools of each propellant, in the order in which propellants first appear: the lines of the sheet. */
export const byPropellant = (ids: readonly string[]): readonly { readonly id: string; readonly pools: number[] }[] => {
  const lines = new Map<string, number[]>();
  ids.forEach((id, p) => {
    const pools = lines.get(id);
    if (pools) pools.push(p);
    else lines.set(id, [p]);
  });
  return [...lines].map(([id, pools]) => ({ id, pools }));
};
