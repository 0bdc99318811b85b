/** What a form is given: the thing, a way to change it, and what was refused. The same for a draft and for the plan. */
import type { Failure } from "../../app/ground/failure.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { type Entity, type EntityKind, entitySchemas } from "../../app/entity/entities.ts";

export interface Editing<E> {
  readonly value: E;
  readonly plan: PlanSnapshot;
  /** Not in the plan yet. */
  readonly isNew: boolean;
  readonly isReadOnly: boolean;
  /** Commits; `words` name what is changed: "departure". */
  readonly change: (patch: Partial<E>, words: string) => void;
  /** What is wrong with a field or a part of it ("loads.0"), in words; null: nothing. */
  readonly faultOf: (field: string) => string | null;
}

/** What is wrong with a thing: the path of the field inside it, "loads.0.loadedKg", and words. */
export interface Fault {
  readonly field: string;
  readonly message: string;
}

/** The first rule of form or range that a thing breaks; null: none. */
export const checkEntity = <K extends EntityKind>(kind: K, value: Entity<K>): Fault | null => {
  const result = entitySchemas[kind].safeParse(value);
  const issue = result.error?.issues[0];
  return issue === undefined ? null : { field: issue.path.join("."), message: issue.message };
};

/** A refusal of the service as a fault of the thing that was put: "changes.0.value.departAt" is its "departAt". */
export const faultOfFailure = (failure: Failure): Fault => ({
  field: (failure.field ?? "").replace(/^changes\.\d+\.(?:value\.)?/, ""),
  message: failure.message,
});

/** Fields that no form shows. */
const unseen: ReadonlySet<string> = new Set(["id", "key", "planCaseId", "basedOnId", "ownerKind"]);

/** The words of a fault that no field of the thing's form would show; null: a field does. */
export const wordsBeside = (fault: Fault | null, value: object): string | null => {
  if (fault === null) return null;
  const [field = ""] = fault.field.split(".");
  return field in value && !unseen.has(field) ? null : fault.message;
};

/** The words of a fault, if it lies in that field or inside it. */
export const wordsFor = (fault: Fault | null, field: string): string | null =>
  fault !== null && (fault.field === field || fault.field.startsWith(`${field}.`)) ? fault.message : null;

/** What the form of one entity is given. */
export interface FormProps<E> {
  readonly edit: Editing<E>;
}
