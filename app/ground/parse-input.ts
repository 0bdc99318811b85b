/** Turns unknown input into a schema's type, or says in words what is wrong and where. */
import { z } from "zod";
import { PlanningError } from "./failure.ts";

type Issue = z.core.$ZodIssue;

const MAX_WORDS = 300;

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
  object: "This part has the wrong form.",
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

const short = (text: string): string => (text.length > MAX_WORDS ? `${text.slice(0, MAX_WORDS)}…` : text);

/** The first fault of a value; null: it has none, and the schema's reading of it is `data`. */
interface Reading {
  readonly data: unknown;
  readonly fault: { readonly issue: Issue; readonly path: readonly PropertyKey[] } | null;
}

const readWhole = (schema: z.ZodType, value: unknown, path: readonly PropertyKey[]): Reading => {
  const result = schema.safeParse(value);
  if (result.success) return { data: result.data, fault: null };
  const [first] = result.error.issues;
  if (first === undefined) throw new PlanningError("invalid input", "This input cannot be read.");
  return { data: null, fault: innermost(first, path) };
};

/** A list at least as long is read entry by entry, so that the first fault ends it: a schema tells every fault there is. */
const LONG_LIST = 200;

/** What an optional or defaulted part is when it is there. */
const inner = (schema: z.ZodType): z.ZodType =>
  schema instanceof z.ZodDefault || schema instanceof z.ZodOptional
    ? inner((schema as z.ZodOptional<z.ZodType>).unwrap())
    : schema;

const readList = (schema: z.ZodArray<z.ZodType>, value: readonly unknown[], path: readonly PropertyKey[]): Reading => {
  // What the list itself must keep (its length), with entries of any kind.
  const list = readWhole(new z.ZodArray({ ...schema.def, element: z.unknown() }), value, path);
  if (list.fault !== null) return list;
  const data: unknown[] = [];
  for (const [index, entry] of value.entries()) {
    const reading = read(schema.element, entry, [...path, index]);
    if (reading.fault !== null) return reading;
    data.push(reading.data);
  }
  return { data, fault: null };
};

const isLong = (value: unknown, depth: number): boolean => {
  if (Array.isArray(value)) return value.length >= LONG_LIST;
  return (
    depth > 0 &&
    typeof value === "object" &&
    value !== null &&
    Object.values(value).some((part) => isLong(part, depth - 1))
  );
};

/** Groups are looked into this deep for long lists: a document's entities. */
const LOOK_DEPTH = 2;

const readGroup = (schema: z.ZodObject, value: object, path: readonly PropertyKey[], depth: number): Reading => {
  const given = value as Readonly<Record<string, unknown>>;
  const long = Object.keys(schema.shape).filter((key) => Object.hasOwn(given, key) && isLong(given[key], depth - 1));
  const shape = { ...schema.shape, ...Object.fromEntries(long.map((key) => [key, z.unknown()])) };
  const group = readWhole(new z.ZodObject({ ...schema.def, shape }), value, path);
  if (group.fault !== null) return group;
  const parts: Record<string, unknown> = {};
  for (const key of long) {
    const reading = read(schema.shape[key] as z.ZodType, given[key], [...path, key], depth - 1);
    if (reading.fault !== null) return reading;
    parts[key] = reading.data;
  }
  return { data: { ...(group.data as object), ...parts }, fault: null };
};

const read = (schema: z.ZodType, value: unknown, path: readonly PropertyKey[], depth = LOOK_DEPTH): Reading => {
  if (!isLong(value, depth)) return readWhole(schema, value, path);
  const plain = inner(schema);
  if (plain instanceof z.ZodArray && Array.isArray(value)) return readList(plain as z.ZodArray<z.ZodType>, value, path);
  // A group with a rule over its parts must see them read: it is read as a whole.
  const hasRule = plain instanceof z.ZodObject && (plain.def.checks?.length ?? 0) > 0;
  if (plain instanceof z.ZodObject && !hasRule && typeof value === "object" && value !== null && !Array.isArray(value))
    return readGroup(plain, value, path, depth);
  return readWhole(schema, value, path);
};

/** Throws "invalid input" with the field's path ("changes.0.value.departAt"; null for the input as a whole). */
export const parseInput = <T>(schema: z.ZodType<T>, value: unknown): T => {
  const { data, fault } = read(schema, value, []);
  if (fault === null) return data as T;
  const field = fault.path.map(String).join(".");
  throw new PlanningError("invalid input", short(words(fault.issue)), field === "" ? null : short(field));
};
