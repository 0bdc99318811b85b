/** What hangs on a thing, so that deleting it can be told before it is done; and the changes that delete all of it. */
import type { Change, Entity, EntityKind } from "../../app/entity/entities.ts";
import { entityKinds } from "../../app/entity/entities.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { countWords, rowsOf } from "../names/entity-words.ts";

export interface RowRef {
  readonly kind: EntityKind;
  readonly id: string;
}

type Links = { readonly [K in EntityKind]: (row: Entity<K>) => readonly (readonly [EntityKind, string | null])[] };

/** What each kind of row refers to and cannot be without. */
const links: Links = {
  propellant: () => [],
  depot: () => [],
  source: () => [],
  craftClass: (row) => row.propellants.map((line) => ["propellant", line.propellantId] as const),
  profile: (row) => [["craftClass", row.classId]],
  craft: (row) => [["craftClass", row.classId]],
  tank: (row) => [
    [row.ownerKind, row.ownerId],
    ["propellant", row.propellantId],
  ],
  planCase: () => [],
  lossPeriod: (row) => [
    ["tank", row.tankId],
    ["planCase", row.planCaseId],
  ],
  campaign: (row) => [["planCase", row.planCaseId]],
  flight: (row) => [
    ["planCase", row.planCaseId],
    ["craft", row.craftId],
    ["depot", row.depotId],
    row.origin.kind === "source" ? ["source", row.origin.sourceId] : ["depot", row.origin.depotId],
    ...row.loads.map((load) => ["propellant", load.propellantId] as const),
  ],
  sortie: (row) => [
    ["planCase", row.planCaseId],
    ["campaign", row.campaignId],
    ["craft", row.landerId],
    ["depot", row.depotId],
    ...(row.demand.kind === "profile" ? [["profile", row.demand.profileId] as const] : []),
    ...(row.demand.kind === "stated" ? row.demand.lines.map((line) => ["propellant", line.propellantId] as const) : []),
  ],
  riskInput: ({ planCaseId, uncertainty: { of } }) => [
    ["planCase", planCaseId],
    ...(of.kind === "craft class" ? [["craftClass", of.craftClassId] as const] : []),
    ...(of.kind === "flight" ? [["flight", of.flightId] as const] : []),
    ...(of.kind === "sortie" ? [["sortie", of.sortieId] as const] : []),
    ...(of.kind === "tank" ? [["tank", of.tankId] as const] : []),
  ],
};

const key = (kind: EntityKind, id: string): string => `${kind}/${id}`;

/** Every row that cannot stay when `roots` go, in any of the plans given (one a plan case), without them. */
export const dependents = (plans: readonly PlanSnapshot[], roots: readonly RowRef[]): readonly RowRef[] => {
  const going = new Map<string, RowRef>(roots.map((root) => [key(root.kind, root.id), root]));
  for (let size = 0; size !== going.size;) {
    size = going.size;
    for (const plan of plans)
      for (const kind of entityKinds) {
        const linksOf = links[kind] as (row: Entity<EntityKind>) => ReturnType<Links[EntityKind]>;
        for (const row of rowsOf(plan, kind))
          if (linksOf(row).some(([target, id]) => id !== null && going.has(key(target, id))))
            going.set(key(kind, row.id), { kind, id: row.id });
      }
  }
  for (const root of roots) going.delete(key(root.kind, root.id));
  return [...going.values()];
};

/** Removes all of them: what refers first, what is referred to last. */
export const removals = (refs: readonly RowRef[]): readonly Change[] =>
  [...refs]
    .sort((a, b) => entityKinds.indexOf(b.kind) - entityKinds.indexOf(a.kind))
    .map(({ kind, id }) => ({ op: "remove", kind, id }));

/** "3 flights and 1 loss period"; empty where nothing hangs on it. */
export const dependentWords = (refs: readonly RowRef[]): string => {
  const parts = entityKinds
    .map((kind) => [kind, refs.filter((ref) => ref.kind === kind).length] as const)
    .filter(([, count]) => count > 0)
    .map(([kind, count]) => countWords(kind, count));
  const last = parts.pop();
  if (last === undefined) return "";
  return parts.length === 0 ? last : `${parts.join(", ")} and ${last}`;
};
