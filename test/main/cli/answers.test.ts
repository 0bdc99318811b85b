/** What every command prints with `--json` is described by a published schema, which is made from the types of the code. */
import { readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { SignatureKind, type Symbol as TypeSymbol } from "typescript/unstable/sync";
import { expect, test } from "vitest";
import { isInstantName, isoName } from "../../../main/cli/iso-instants.ts";
import { usualWords, withUnit } from "../../suite/property-words.ts";
import { type JsonSchema, type TypeReader, withTypes } from "../../suite/type-schema.ts";

const SCHEMA = fileURLToPath(new URL("../../../main/cli/answers.schema.json", import.meta.url));
const COMMANDS = "main/cli/command";

/** `withIsoInstants` adds the text of an instant: of a number, of none, of a list of them. */
const isoBeside = (name: string, schema: JsonSchema): readonly (readonly [string, JsonSchema])[] => {
  const text = JSON.stringify(schema);
  if (!isInstantName(name) || !text.includes('"number"')) return [];
  const one = { anyOf: [{ type: "string", format: "date-time" }, { type: "null" }] };
  const iso: JsonSchema = text.includes('"array"') ? { type: "array", items: one } : one;
  return [[isoName(name), { description: `${name} as ISO 8601 text, UTC`, ...iso }]];
};

const usual = (name: string, schema: JsonSchema): string =>
  withUnit(name, usualWords(name), JSON.stringify(schema).includes('"number"'));

const answerOf = ({ checker, schemaOf }: TypeReader, command: TypeSymbol): JsonSchema => {
  const type = checker.getTypeOfSymbol(command);
  const member = (of: typeof type, property: string) => {
    const symbol = of === undefined ? undefined : checker.getPropertyOfType(of, property);
    return symbol === undefined ? undefined : checker.getTypeOfSymbol(symbol);
  };
  const act = member(type, "act");
  const signature = act === undefined ? undefined : checker.getSignaturesOfType(act, SignatureKind.Call)[0];
  const promise = signature === undefined ? undefined : checker.getReturnTypeOfSignature(signature);
  const [outcome] = promise === undefined ? [] : checker.getTypeArguments(promise as never);
  if (outcome === undefined) throw new Error(`${command.name} gives nothing`);
  const outcomes = outcome.isUnionType() ? outcome.getTypes() : [outcome];
  const jsons = outcomes.map((each) => member(each, "json")).filter((each) => each !== undefined);
  const schemas = [...new Map(jsons.map((each) => [JSON.stringify(schemaOf(each)), schemaOf(each)])).values()];
  return schemas.length === 1 && schemas[0] !== undefined ? schemas[0] : { anyOf: schemas };
};

test("the published schemas are what the types say; when they changed, run this test with -u and look at the difference", async () => {
  const made = withTypes("main", { beside: isoBeside, usual }, (reader) => {
    const commands = readdirSync(COMMANDS)
      .toSorted()
      .flatMap((file) =>
        [...reader.exportsOf(`${COMMANDS}/${file}`)]
          .filter(([name]) => name.endsWith("Command"))
          .map(([name, command]) => [
            name.replace(/Command$/, "").replaceAll(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`),
            answerOf(reader, command),
          ]),
      );
    return {
      $schema: "https://json-schema.org/draft/2020-12/schema",
      commands: Object.fromEntries(commands) as JsonSchema,
      $defs: Object.fromEntries([...reader.defs].toSorted(([a], [b]) => (a < b ? -1 : 1))),
    };
  });
  await expect(`${JSON.stringify(made, null, 1)}\n`).toMatchFileSnapshot(SCHEMA);
});
