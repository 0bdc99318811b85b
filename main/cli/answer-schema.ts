/** The published schemas of what each command prints with `--json`, and what `--help` says of them. */
import answers from "./answers.schema.json" with { type: "json" };

interface Node {
  readonly $ref?: string;
  readonly type?: string | readonly string[];
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
  readonly anyOf?: readonly Node[];
  readonly properties?: Readonly<Record<string, Node>>;
  readonly items?: Node;
  readonly description?: string;
}

const defs = answers.$defs as unknown as Readonly<Record<string, Node>>;
const byCommand = answers.commands as unknown as Readonly<Record<string, Node>>;

/** Names of the commands that have one. */
export const answerNames: readonly string[] = Object.keys(byCommand);

const referred = (node: Node): Node => {
  const name = node.$ref?.replace("#/$defs/", "");
  return name === undefined ? node : { ...defs[name], ...node };
};

/** Names of the definitions that a schema leads to. */
const reached = (node: unknown, names: Set<string>): Set<string> => {
  if (Array.isArray(node)) for (const each of node) reached(each, names);
  else if (typeof node === "object" && node !== null)
    for (const [key, value] of Object.entries(node))
      if (key === "$ref" && typeof value === "string") {
        const name = value.replace("#/$defs/", "");
        if (!names.has(name)) reached(defs[name], names.add(name));
      } else reached(value, names);
  return names;
};

/** JSON Schema (2020-12) of one command's answer, with only what it needs; null: no such command. */
export const answerSchema = (command: string): Readonly<Record<string, unknown>> | null => {
  const node = byCommand[command];
  if (node === undefined) return null;
  const names = [...reached(node, new Set())].toSorted();
  return {
    $schema: answers.$schema,
    $id: `urn:coldstock:answer:${command}`,
    title: `What coldstock ${command} --json prints`,
    ...node,
    $defs: Object.fromEntries(names.map((name) => [name, defs[name]])),
  };
};

const typeWords = (node: Node): string => {
  const { type, enum: values, const: value, anyOf, properties, items } = referred(node);
  if (value !== undefined) return JSON.stringify(value);
  if (values !== undefined) return values.map((each) => JSON.stringify(each)).join(" | ");
  if (anyOf !== undefined) return [...new Set(anyOf.map(typeWords))].join(" | ");
  if (type === "array") return items === undefined ? "list" : `list of ${typeWords(items)}`;
  if (properties !== undefined || type === "object") return "object";
  return typeof type === "string" ? type : (type ?? ["anything"]).join(" | ");
};

const MAX_WIDTH = 44;
const clipped = (text: string): string => (text.length > MAX_WIDTH ? `${text.slice(0, MAX_WIDTH - 1)}…` : text);

/** Lines for `--help`: each property of the answer with its type, and what it is where that is said. */
export const answerShape = (command: string): readonly string[] => {
  const node = byCommand[command];
  if (node === undefined) return [];
  const whole = referred(node);
  const forms = (whole.anyOf ?? [whole]).map(referred);
  const shapes = forms.map(({ properties, items }) => properties ?? referred(items ?? {}).properties ?? {});
  return shapes.flatMap((properties, index) => [
    ...(index === 0 ? [] : ["  or"]),
    ...Object.entries(properties)
      .filter(([name]) => !name.endsWith("Iso"))
      .map(([name, each]) => {
        const said = referred(each).description?.split(/(?<=\.) /)[0] ?? "";
        return `  ${name}: ${clipped(typeWords(each))}${said === "" ? "" : `  ${said}`}`;
      }),
  ]);
};
