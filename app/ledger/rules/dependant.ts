/** The rows whose rules look at another row: they are checked again when that one changes. */
import type { Entity, EntityKind, EntitySet } from "../../entity/entities.ts";

export type Placed = { readonly [K in EntityKind]: { readonly kind: K; readonly row: Entity<K> } }[EntityKind];

const ofCraft = (plan: EntitySet, craftIds: ReadonlySet<string>): Placed[] => [
  ...plan.flight.filter((row) => craftIds.has(row.craftId)).map((row): Placed => ({ kind: "flight", row })),
  ...plan.sortie.filter((row) => craftIds.has(row.landerId)).map((row): Placed => ({ kind: "sortie", row })),
  ...plan.tank
    .filter((row) => row.ownerKind === "craft" && craftIds.has(row.ownerId))
    .map((row): Placed => ({ kind: "tank", row })),
];

/** Rows that depend on one of this kind and id. */
export const dependants = (plan: EntitySet, kind: EntityKind, id: string): readonly Placed[] => {
  switch (kind) {
    case "propellant":
      return plan.tank.filter((row) => row.propellantId === id).map((row) => ({ kind: "tank", row }));
    case "craftClass":
      return ofCraft(plan, new Set(plan.craft.filter((row) => row.classId === id).map((row) => row.id)));
    case "craft":
      return ofCraft(plan, new Set([id]));
    case "campaign":
      return plan.sortie.filter((row) => row.campaignId === id).map((row) => ({ kind: "sortie", row }));
    default:
      return [];
  }
};
