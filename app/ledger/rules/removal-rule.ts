/** What may be removed from a plan. */
import { kindWords } from "../change-line.ts";
import type { Change, Entity, EntityKind, EntitySet } from "../../entity/entities.ts";
import { findEntity } from "../../entity/entity-index.ts";
import { firstReferrer } from "./reference.ts";

const titleOf = (row: Entity<EntityKind>): string =>
  "name" in row ? row.name : "uncertainty" in row ? row.uncertainty.quantity : row.reason;

const plannedStatuses: ReadonlySet<string> = new Set(["planned", "firm", "cancelled", "stood down"]);

/** A flight or sortie that happened stays in its plan case: records speak of it. It goes only with the whole case. */
const isRecorded = (row: Entity<EntityKind>, after: EntitySet): boolean =>
  "status" in row && !plannedStatuses.has(row.status) && findEntity(after, "planCase", row.planCaseId) !== null;

/** Why these removals cannot be, with the place of the one to blame; null: they can. */
export const removalFault = (
  after: EntitySet,
  changes: readonly Change[],
  before: EntitySet,
): { readonly index: number; readonly message: string } | null => {
  const removed = new Map<string, number>();
  for (const [index, change] of changes.entries()) {
    if (change.op !== "remove") continue;
    const row: Entity<EntityKind> | null = findEntity(before, change.kind, change.id);
    if (row === null) return { index, message: `There is no ${kindWords[change.kind]} ${change.id}.` };
    if (isRecorded(row, after))
      return { index, message: `${titleOf(row)} cannot be removed: records speak of it. Reverse them first.` };
    removed.set(`${change.kind}/${change.id}`, index);
  }
  if (removed.size === 0) return null;
  if (after.planCase.length === 0 && before.planCase.length > 0)
    return { index: 0, message: "A ledger keeps at least one plan case." };
  const referrer = firstReferrer(after, new Set(removed.keys()));
  if (referrer === null) return null;
  const { kind, row, to } = referrer;
  const target: Entity<EntityKind> | null = findEntity(before, to.kind, to.id);
  return {
    index: removed.get(`${to.kind}/${to.id}`) ?? 0,
    message: `${target === null ? to.id : titleOf(target)} cannot be removed: the ${kindWords[kind]} ${titleOf(row)} refers to it.`,
  };
};
