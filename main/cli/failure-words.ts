/** What is said of a failure: its sentence, and where, when the sentence does not say that itself. */
import type { PlanningError } from "../../app/ground/failure.ts";

/** An option is named before the sentence, a place in a document after it; names of arguments in the code are not for people. */
export const failureWords = ({ message, field }: PlanningError): string => {
  if (field === null || message.includes(field)) return message;
  if (field.startsWith("--")) return `${field}: ${message}`;
  return /^[a-z][A-Za-z]*(\.[A-Za-z0-9_-]+)+$/.test(field) ? `${message} It stands at ${field}.` : message;
};
