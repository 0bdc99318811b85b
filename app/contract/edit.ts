/** The input of an edit: changes of the plan, as one undoable step. Derived from the list of entities. */
import { z } from "zod";
import { type Change, type EntityKind, entityKinds, entitySchemas } from "../entity/entities.ts";
import { recordInputs } from "../records/record-input.ts";
import { id } from "../ground/quantity.ts";

const put = <K extends EntityKind>(kind: K) =>
  z.strictObject({ op: z.literal("put"), kind: z.literal(kind), value: entitySchemas[kind] });

const puts = entityKinds.map(put) as unknown as readonly [z.ZodType<Change>, ...z.ZodType<Change>[]];

export const change: z.ZodType<Change> = z.union([
  ...puts,
  z.strictObject({ op: z.literal("remove"), kind: z.enum(entityKinds as [EntityKind, ...EntityKind[]]), id }),
]);

/** At most this many changes in one step. */
export const MAX_CHANGES = 20_000;

export const editInput = z.strictObject({
  /** What the undo menu says: "Move Packhorse 7". */
  label: z.string().min(1).max(120),
  /** Why, in the person's words. */
  reason: z.string().max(500),
  changes: z.array(change).min(1).max(MAX_CHANGES),
  /** The levels with which the books of tanks open that are made in this step; absent: they stay unopened. */
  openings: z
    .array(recordInputs["record.entry"].extend({ kind: z.literal("opening") }))
    .max(60)
    .optional(),
});
