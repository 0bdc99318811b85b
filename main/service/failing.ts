/** Turns what was thrown into a failure that may cross a process: words for a person, never a stack. */
import { type Failure, PlanningError } from "../../app/ground/failure.ts";
import type { Environment } from "./environment.ts";

const isAbort = (error: unknown): boolean => error instanceof Error && error.name === "AbortError";

export const failureOf = (error: unknown, where: string, environment: Environment): Failure => {
  if (error instanceof PlanningError) return { code: error.code, message: error.message, field: error.field };
  if (isAbort(error)) return { code: "cancelled", message: "Stopped before it was finished.", field: null };
  const logId = environment.logDefect(where, error);
  return {
    code: "defect",
    message: `Something went wrong inside the program; nothing was changed by it. The log has the details under ${logId}.`,
    field: null,
  };
};
