/** Gives a new thing its id (and key) from its name. */
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { Entity, EntityKind } from "../../app/entity/entities.ts";
import { rowsOf } from "../names/entity-words.ts";
import { slug, uniqueId } from "../names/new-id.ts";

/** Kinds that live in one plan case: the same key may stand in every case, the id may not. */
const ofCase: ReadonlySet<EntityKind> = new Set<EntityKind>(["flight", "sortie", "campaign"]);

const nameForId = (plan: PlanSnapshot, value: { name?: string; reason?: string; tankId?: string }): string => {
  if (value.name !== undefined) return value.name;
  const tank = plan.tanks.find(({ id }) => id === value.tankId)?.name ?? "";
  return `${tank} ${value.reason ?? ""}`;
};

/** `others` are ids known to be taken beside those of the plan. */
export const withNewId = <K extends EntityKind>(
  plan: PlanSnapshot,
  kind: K,
  value: Entity<K>,
  others: ReadonlySet<string> = new Set(),
): Entity<K> => {
  const rows = rowsOf(plan, kind) as readonly { readonly id: string; readonly key?: string }[];
  const taken = new Set([...others, ...rows.map(({ id }) => id)]);
  const name = nameForId(plan, value as Parameters<typeof nameForId>[1]);
  if (!ofCase.has(kind)) return { ...value, id: uniqueId(name, kind.toLowerCase(), taken) };
  const keys = new Set(rows.flatMap(({ key }) => (key === undefined ? [] : [key])));
  const key = uniqueId(name, kind.toLowerCase(), keys);
  return { ...value, key, id: uniqueId(key, kind.toLowerCase(), taken, `${slug(plan.planCase.id).slice(0, 20)}.`) };
};
