/** A plan with changes applied to it: a new set of rows, each list in order of id; untouched lists are the same objects. */
import { type Change, type Entity, type EntityKind, type EntitySet, entityKinds } from "./entities.ts";

/** A plan without rows. */
export const emptyEntitySet = (): EntitySet =>
  Object.fromEntries(entityKinds.map((kind) => [kind, []])) as unknown as EntitySet;

const idOf = (change: Change): string => (change.op === "put" ? change.value.id : change.id);

/** The last word on each row that the changes touch, in order of first touch. */
export const settleChanges = (changes: readonly Change[]): readonly Change[] => {
  const last = new Map<string, Change>();
  for (const change of changes) last.set(`${change.kind}/${idOf(change)}`, change);
  return [...last.values()];
};

const mergeKind = <K extends EntityKind>(rows: readonly Entity<K>[], changes: readonly Change[]): Entity<K>[] => {
  const touched = new Set(changes.map(idOf));
  const kept = rows.filter((row) => !touched.has(row.id));
  const put = changes.flatMap((change) => (change.op === "put" ? [change.value as Entity<K>] : []));
  const sorted = put.toSorted((a, b) => (a.id < b.id ? -1 : 1));
  const merged: Entity<K>[] = [];
  let next = 0;
  for (const row of kept) {
    for (let add = sorted[next]; add !== undefined && add.id < row.id; add = sorted[next]) {
      merged.push(add);
      next += 1;
    }
    merged.push(row);
  }
  return [...merged, ...sorted.slice(next)];
};

/** Applies changes to a plan whose lists are in order of id. */
export const applyChanges = (entities: EntitySet, changes: readonly Change[]): EntitySet => {
  const settled = settleChanges(changes);
  const kinds = new Set(settled.map((change) => change.kind));
  const lists = [...kinds].map((kind) => {
    const ofKind = settled.filter((change) => change.kind === kind);
    return [kind, mergeKind(entities[kind] as readonly Entity<typeof kind>[], ofKind)] as const;
  });
  return { ...entities, ...Object.fromEntries(lists) };
};
