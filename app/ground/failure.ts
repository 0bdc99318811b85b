/** A failure as it crosses a process: data, in words for a person. The closed list of its codes. */

export const failureCodes = [
  /** The input does not have the form or range that it must have; `field` says where. */
  "invalid input",
  /** The input is well formed but breaks a rule of the plan or the books; `field` says where. */
  "refused",
  /** What is named does not exist. */
  "not found",
  /** The ledger is open read-only (another program holds it, or the file may not be written). */
  "read-only",
  /** The file is not a ledger, is damaged, or is of a newer version. */
  "not a ledger",
  /** Disk full, file not writable, path missing. */
  "storage",
  /** The person stopped it. */
  "cancelled",
  /** No ledger is open. */
  "no ledger",
  /** The caller may not ask this. */
  "forbidden",
  /** A fault of the program itself. */
  "defect",
] as const;
export type FailureCode = (typeof failureCodes)[number];

/** What went wrong, where, and what to do. `message` is one or two sentences for a person. */
export interface Failure {
  readonly code: FailureCode;
  readonly message: string;
  /** Path of the offending part of the input, "changes.0.value.departAt"; null where there is none. */
  readonly field: string | null;
}

/** Thrown inside a process; turned into a {@link Failure} at the service's door. */
export class PlanningError extends Error {
  readonly code: FailureCode;
  readonly field: string | null;

  constructor(code: FailureCode, message: string, field: string | null = null) {
    super(message);
    this.name = "PlanningError";
    this.code = code;
    this.field = field;
  }
}

/** An answer across a process. */
export type Reply<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly failure: Failure };
