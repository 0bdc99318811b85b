/** Values as the ledger keeps them: their properties in the order of declaration, so that equal rows are equal texts. */
import type { z } from "zod";
import { type Entity, type EntityKind, entitySchemas } from "../app/entity/entities.ts";
import { PlanningError } from "../app/ground/failure.ts";
import { parseInput } from "../app/ground/parse-input.ts";

/** Throws "invalid input" with the field, which is given below `field`. */
export const parsedAt = <T>(schema: z.ZodType<T>, value: unknown, field: string): T => {
  try {
    return parseInput(schema, value);
  } catch (error) {
    if (!(error instanceof PlanningError)) throw error;
    throw new PlanningError(error.code, error.message, error.field === null ? field : `${field}.${error.field}`);
  }
};

/** A row of the plan. Throws "invalid input" with the field. */
export const canonicalRow = <K extends EntityKind>(kind: K, row: Entity<K>, field: string): Entity<K> =>
  parsedAt(entitySchemas[kind] as unknown as z.ZodType<Entity<K>>, row, field);
