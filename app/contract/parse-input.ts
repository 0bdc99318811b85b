/** Turns unknown input into a schema's type, or says in words what is wrong and where. */
import type { z } from "zod";
import { PlanningError } from "./failure.ts";

type Issue = z.core.$ZodIssue;

const MOST_WORDS = 300;

/** Keys that say which member of a union is meant; a member that does not complain of them is the one meant. */
const discriminants: readonly PropertyKey[] = ["op", "kind"];

const isMeant = (branch: readonly Issue[]): boolean =>
  !branch.some((issue) => issue.path.length === 0 || discriminants.includes(issue.path[0] ?? ""));

/** The innermost issue, with its path from the outside. */
const innermost = (issue: Issue, before: readonly PropertyKey[]): { issue: Issue; path: readonly PropertyKey[] } => {
  const path = [...before, ...issue.path];
  if (issue.code === "invalid_union") {
    const meant = issue.errors.find((branch) => branch.length > 0 && isMeant(branch));
    if (meant?.[0] !== undefined) return innermost(meant[0], path);
  }
  if (issue.code === "unrecognized_keys") return { issue, path: [...path, issue.keys[0] ?? ""] };
  return { issue, path };
};

const expected: Readonly<Record<string, string>> = {
  string: "Text is expected here.",
  number: "A finite number is expected here.",
  int: "A whole number is expected here.",
  boolean: "True or false is expected here.",
  array: "A list is expected here.",
  object: "A group of fields is expected here.",
};

const sizeWords = (issue: Issue & { code: "too_big" | "too_small" }): string => {
  const isMost = issue.code === "too_big";
  const bound = isMost ? issue.maximum : issue.minimum;
  const limit = isMost ? "at most" : "at least";
  const strictly = issue.inclusive === false ? (isMost ? "less than" : "more than") : limit;
  if (issue.origin === "string") return `This text has ${limit} ${bound} characters.`;
  if (issue.origin === "array" || issue.origin === "set") return `This list has ${limit} ${bound} entries.`;
  return `This must be ${strictly} ${bound}.`;
};

/** Words for one issue; a message that a schema gives itself is kept. */
const words = (issue: Issue): string => {
  switch (issue.code) {
    case "invalid_type":
      return expected[issue.expected] ?? `This must be of the kind "${issue.expected}".`;
    case "too_big":
    case "too_small":
      return issue.message.startsWith("Too ") ? sizeWords(issue) : issue.message;
    case "unrecognized_keys":
      return "There is no field of this name here.";
    case "invalid_value":
      return `One of these is expected here: ${issue.values.map(String).join(", ")}.`;
    default:
      return issue.message;
  }
};

const short = (text: string): string => (text.length > MOST_WORDS ? `${text.slice(0, MOST_WORDS)}…` : text);

/** Throws "invalid input" with the field's path ("changes.0.value.departAt"; null for the input as a whole). */
export const parseInput = <T>(schema: z.ZodType<T>, value: unknown): T => {
  const result = schema.safeParse(value);
  if (result.success) return result.data;
  const first = result.error.issues[0];
  if (first === undefined) throw new PlanningError("invalid input", "This input cannot be read.");
  const { issue, path } = innermost(first, []);
  const field = path.map(String).join(".");
  throw new PlanningError("invalid input", short(words(issue)), field === "" ? null : short(field));
};
