/** Finds rows of a plan by id, quickly: one index a list, made at its first use and kept as long as the list. */
import type { Entity, EntityKind, EntitySet } from "./entities.ts";

interface Identified {
  readonly id: string;
}

const indexes = new WeakMap<readonly Identified[], ReadonlyMap<string, Identified>>();

/** The rows of a list by their id. */
export const byId = <E extends Identified>(rows: readonly E[]): ReadonlyMap<string, E> => {
  const known = indexes.get(rows);
  if (known !== undefined) return known as ReadonlyMap<string, E>;
  const made = new Map(rows.map((row) => [row.id, row]));
  indexes.set(rows, made);
  return made;
};

/** The row of a kind with this id; null: there is none. */
export const findEntity = <K extends EntityKind>(entities: EntitySet, kind: K, id: string): Entity<K> | null =>
  byId<Entity<K>>(entities[kind]).get(id) ?? null;
