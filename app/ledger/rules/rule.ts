/** What a rule is: a look at one row in its plan, and the faults it finds. */
import type { Entity, EntityKind, EntitySet } from "../../entity/entities.ts";

export interface Fault {
  /** Path in the row, "loads.0.loadedKg"; null: the row as a whole. */
  readonly property: string | null;
  /** A sentence for a person. */
  readonly message: string;
}

export type Rule<K extends EntityKind> = (row: Entity<K>, plan: EntitySet) => readonly Fault[];

/** A fault if the condition does not hold. */
export const need = (holds: boolean, property: string | null, message: string): readonly Fault[] =>
  holds ? [] : [{ property, message }];

/** The places of values that came before in the list already. */
export const repeated = (values: readonly string[]): readonly number[] => {
  const seen = new Set<string>();
  return values.flatMap((value, index) => {
    if (seen.has(value)) return [index];
    seen.add(value);
    return [];
  });
};

/** Room for the rounding of a product of decimals. */
const RELATIVE_ROOM = 1e-9;

/** Whether a ≤ b, up to rounding. */
export const isAtMost = (a: number, b: number): boolean => a <= b * (1 + RELATIVE_ROOM);
