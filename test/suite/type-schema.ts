/** JSON Schema of types of the program, made from what the compiler knows of them; their comments are its descriptions. */
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import {
  API,
  type Checker,
  SignatureKind,
  SymbolFlags,
  type Symbol as TypeSymbol,
  type Type,
} from "typescript/unstable/sync";

const root = fileURLToPath(new URL("../..", import.meta.url));

export interface JsonSchema {
  readonly [key: string]: unknown;
}

export interface TypeReader {
  readonly checker: Checker;
  /** What a file exports, by name. */
  exportsOf(file: string): ReadonlyMap<string, TypeSymbol>;
  /** The schema of a type as JSON has it; what it refers to lies in `defs`. */
  schemaOf(type: Type): JsonSchema;
  readonly defs: Map<string, JsonSchema>;
}

export interface Told {
  /** Properties that JSON has and the types do not: name and schema, after the one of this name. */
  beside(name: string, schema: JsonSchema): readonly (readonly [string, JsonSchema])[];
  /** What to say of a property that bears no comment; may be empty. */
  usual(name: string, schema: JsonSchema): string;
}

/** Reads the types of one of the project's folders. */
export const withTypes = <T>(folder: string, told: Told, use: (reader: TypeReader) => T): T => {
  const api = new API({ cwd: root });
  try {
    const config = join(root, folder, "tsconfig.json");
    const project = api.updateSnapshot({ openProjects: [config] }).getProject(config);
    if (project === undefined) throw new Error(`there is no project ${config}`);
    const { checker, program } = project;
    const defs = new Map<string, JsonSchema>();
    const names = new Map<number, string>();

    const nameOf = (type: Type): string | null => {
      const alias = type.getAliasSymbol();
      if (alias !== undefined && type.getAliasTypeArguments().length > 0) return null;
      const symbol = alias ?? type.getSymbol();
      const name = symbol?.name ?? "";
      return /^[A-Z]\w*$/.test(name) ? name : null;
    };

    const objectOf = (type: Type): JsonSchema => {
      const properties: (readonly [string, JsonSchema])[] = [];
      const required: string[] = [];
      for (const property of checker.getPropertiesOfType(type)) {
        const held = checker.getTypeOfSymbol(property);
        // What is never there, and what JSON leaves out.
        if (held === undefined || checker.typeToString(held) === "undefined") continue;
        if (checker.getSignaturesOfType(held, SignatureKind.Call).length > 0) continue;
        const schema = schemaOf(held);
        const comment = checker.getDocumentationCommentOfSymbol(property).trim().replaceAll(/\s+/g, " ");
        const words = comment === "" ? told.usual(property.name, schema) : comment;
        const added = told.beside(property.name, schema);
        properties.push([property.name, words === "" ? schema : { description: words, ...schema }], ...added);
        if ((property.flags & SymbolFlags.Optional) !== 0 || isUndefined(held)) continue;
        required.push(property.name, ...added.map(([name]) => name));
      }
      const index = checker.getIndexInfosOfType(type)[0];
      return {
        type: "object",
        ...(properties.length > 0 ? { properties: Object.fromEntries(properties) } : {}),
        ...(required.length > 0 ? { required } : {}),
        additionalProperties: index === undefined ? false : schemaOf(index.valueType),
      };
    };

    const isUndefined = (type: Type): boolean =>
      checker.typeToString(type) === "undefined" || (type.isUnionType() && type.getTypes().some(isUndefined));

    const unionOf = (types: readonly Type[]): JsonSchema => {
      const schemas = types.filter((type) => checker.typeToString(type) !== "undefined").map((type) => schemaOf(type));
      const values = schemas.filter((schema) => "const" in schema).map((schema) => schema["const"]);
      const others = schemas.filter((schema) => !("const" in schema));
      const isBoolean = values.includes(true) && values.includes(false);
      const literals = isBoolean ? values.filter((value) => typeof value !== "boolean") : values;
      const parts: JsonSchema[] = [
        ...(isBoolean ? [{ type: "boolean" }] : []),
        ...(literals.length === 1
          ? [{ const: literals[0] }]
          : literals.length > 1
            ? [{ enum: literals.toSorted((a, b) => (String(a) < String(b) ? -1 : 1)) }]
            : []),
        ...new Map(others.map((schema) => [JSON.stringify(schema), schema])).values(),
      ];
      const [only] = parts;
      return parts.length === 1 && only !== undefined ? only : { anyOf: parts };
    };

    const plainOf = (type: Type): JsonSchema => {
      const text = checker.typeToString(type);
      if (type.isLiteralType()) return { const: type.value };
      if (text === "true" || text === "false") return { const: text === "true" };
      if (text === "string" || text === "number" || text === "boolean" || text === "null") return { type: text };
      if (text === "unknown" || text === "any") return {};
      if (type.isTemplateLiteralType()) return { type: "string" };
      if (type.isUnionType()) return unionOf(type.getTypes());
      if (type.isTupleType() || checker.isTupleType(type)) {
        const parts = checker.getTypeArguments(type as never).map((part) => schemaOf(part));
        return { type: "array", prefixItems: parts, minItems: parts.length, maxItems: parts.length };
      }
      if (checker.isArrayLikeType(type)) {
        const [item] = checker.getTypeArguments(type as never);
        return { type: "array", items: item === undefined ? {} : schemaOf(item) };
      }
      if (/^(Map|Set|ReadonlyMap|ReadonlySet|Date|\w+Array|bigint|symbol)\b/.test(text))
        throw new Error(`${text} is not the same in JSON`);
      return objectOf(type);
    };

    const schemaOf = (type: Type): JsonSchema => {
      const known = names.get(type.id);
      if (known !== undefined) return { $ref: `#/$defs/${known}` };
      const name = checker.isArrayLikeType(type) ? null : nameOf(type);
      if (name === null || name === "Record" || type.isLiteralType()) return plainOf(type);
      let own = name;
      for (let more = 2; defs.has(own); more += 1) own = `${name}${more}`;
      names.set(type.id, own);
      defs.set(own, {});
      const schema = plainOf(type);
      // A name for a text or a number is only that.
      if (schema["type"] === "string" || schema["type"] === "number") {
        names.delete(type.id);
        defs.delete(own);
        return schema;
      }
      defs.set(own, schema);
      return { $ref: `#/$defs/${own}` };
    };

    return use({
      checker,
      defs,
      schemaOf,
      exportsOf: (file) => {
        const source = program.getSourceFile(join(root, file));
        const module = source === undefined ? undefined : checker.getSymbolAtLocation(source);
        if (module === undefined) throw new Error(`${file} is no module of ${folder}`);
        return new Map(checker.getExportsOfModule(module).map((symbol) => [symbol.name, symbol]));
      },
    });
  } finally {
    api.close();
  }
};
