/** The schema of an exported ledger with a sentence at every property: its comment in the code, its unit, its range. */
import { type JsonSchema, withTypes } from "../../suite/type-schema.ts";
import { usualWords, withUnit } from "../../suite/property-words.ts";

type Said = Map<string, Set<string>>;

const isObject = (value: unknown): value is JsonSchema =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/** Branches of a union, items and variants, with the path that they have. */
const inner = (schema: JsonSchema, path: string): readonly (readonly [JsonSchema, string])[] => [
  ...["anyOf", "oneOf", "allOf"].flatMap((key) =>
    ((schema[key] ?? []) as readonly JsonSchema[]).map((each) => [each, path] as const),
  ),
  ...(isObject(schema["items"]) ? [[schema["items"], `${path}[]`] as const] : []),
];

const propertiesOf = (schema: JsonSchema): readonly (readonly [string, JsonSchema])[] =>
  Object.entries((schema["properties"] ?? {}) as Readonly<Record<string, JsonSchema>>);

const gather = (schema: JsonSchema, defs: ReadonlyMap<string, JsonSchema>, path: string, said: Said): void => {
  const reference = schema["$ref"];
  if (typeof reference === "string") gather(defs.get(reference.replace("#/$defs/", "")) ?? {}, defs, path, said);
  for (const [name, each] of propertiesOf(schema)) {
    const own = `${path}.${name}`;
    const words = each["description"];
    if (typeof words === "string") said.set(own, (said.get(own) ?? new Set()).add(words));
    gather(each, defs, own, said);
  }
  for (const [each, own] of inner(schema, path)) gather(each, defs, own, said);
};

/** Comments of the properties by path; union branches share one. */
const comments = (): Said => {
  const said: Said = new Map();
  withTypes("app", { beside: () => [], usual: () => "" }, ({ checker, exportsOf, schemaOf, defs }) => {
    const symbol = exportsOf("app/exchange/ledger-document.ts").get("ledgerDocument");
    const schemaType = symbol === undefined ? undefined : checker.getTypeOfSymbol(symbol);
    const output = schemaType === undefined ? undefined : checker.getPropertyOfType(schemaType, "_output");
    const type = output === undefined ? undefined : checker.getTypeOfSymbol(output);
    if (type === undefined) throw new Error("the document's schema has no output");
    gather(schemaOf(type), defs, "", said);
  });
  return said;
};

/** The number's own schema; null: it is none. */
const numberIn = (schema: JsonSchema): JsonSchema | null => {
  if (schema["type"] === "number" || schema["type"] === "integer") return schema;
  return ((schema["anyOf"] ?? []) as readonly JsonSchema[]).map(numberIn).find((each) => each !== null) ?? null;
};

const rangeWords = ({ minimum, maximum, exclusiveMinimum }: JsonSchema): string => {
  const low = minimum ?? exclusiveMinimum;
  const above = exclusiveMinimum === undefined ? "" : "above ";
  if (low === undefined && maximum === undefined) return "";
  if (maximum === undefined) return ` Range: ${above}${JSON.stringify(low)} or more.`;
  return ` Range: ${above}${JSON.stringify(low)} to ${JSON.stringify(maximum)}.`;
};

const describe = (schema: JsonSchema, path: string, said: Said): JsonSchema => {
  const properties = propertiesOf(schema).map(([name, each]) => {
    const own = `${path}.${name}`;
    const number = numberIn(each);
    const words = [...(said.get(own) ?? [usualWords(name)])].join(" Or: ");
    const range = number === null ? "" : rangeWords(number);
    const description = `${withUnit(name, words, number !== null)}${range}`;
    return [name, { ...(description === "" ? {} : { description }), ...describe(each, own, said) }] as const;
  });
  const replaced = Object.entries(schema).map(([key, value]) => {
    if (key === "properties") return [key, Object.fromEntries(properties)];
    if (key === "anyOf" || key === "oneOf" || key === "allOf")
      return [key, (value as readonly JsonSchema[]).map((each) => describe(each, path, said))];
    return key === "items" && isObject(value) ? [key, describe(value, `${path}[]`, said)] : [key, value];
  });
  return Object.fromEntries(replaced) as JsonSchema;
};

export const describedSchema = (schema: object): JsonSchema => describe(schema as JsonSchema, "", comments());

/** Paths of the properties that say nothing, or no unit or range where a number has one. */
export const undescribed = (schema: JsonSchema, path = ""): readonly string[] => [
  ...propertiesOf(schema).flatMap(([name, each]) => {
    const own = `${path}.${name}`;
    const words = each["description"];
    const number = numberIn(each);
    const isSaid = typeof words === "string" && words.length > 1;
    const hasRange = number === null || rangeWords(number) === "" || String(words).includes("Range: ");
    return [...(isSaid && hasRange ? [] : [own]), ...undescribed(each, own)];
  }),
  ...inner(schema, path).flatMap(([each, own]) => undescribed(each, own)),
];
