/** What a row of a study's results holds, flat, so that it goes into any table. */
import type { PlanSnapshot } from "../entity/plan.ts";

export type Cell = number | string | null;

export interface Column {
  /** Unique within a study. */
  readonly name: string;
  readonly unit: string;
  /** The sortie that the column is about. */
  readonly sortieId?: string;
}

/** What columns call the sorties: by name, with the id where two bear the same. */
export const sortieNames = (plan: PlanSnapshot, sortieIds: readonly string[]): ReadonlyMap<string, string> => {
  const named = new Map(plan.sorties.map(({ id, name }) => [id, name]));
  const times = Map.groupBy(sortieIds, (id) => named.get(id) ?? id);
  return new Map(
    sortieIds.map((id) => {
      const name = named.get(id) ?? id;
      return [id, (times.get(name)?.length ?? 0) > 1 ? `${name} (${id})` : name];
    }),
  );
};
