/** Reads a script's syntax tree for what the gates ask: which modules it reaches, and which forbidden things it uses. */
import { parseSync } from "vite";
import type { SourceFile } from "./source-files.ts";

interface TreeNode {
  readonly type: string;
  readonly start: number;
  readonly [key: string]: unknown;
}

const isNode = (value: unknown): value is TreeNode =>
  typeof value === "object" && value !== null && "type" in value && typeof value.type === "string";

const childrenOf = (node: TreeNode): readonly TreeNode[] =>
  Object.values(node).flatMap((value) => (Array.isArray(value) ? value.filter(isNode) : isNode(value) ? [value] : []));

function* everyNode(node: TreeNode): Generator<TreeNode> {
  yield node;
  for (const child of childrenOf(node)) yield* everyNode(child);
}

/** Every node of the file's tree. Throws when the file does not parse. */
export const nodesOf = (file: SourceFile): readonly TreeNode[] => {
  const { program, errors } = parseSync(file.path, file.text);
  const first = errors[0];
  if (first !== undefined) throw new Error(`${file.path} does not parse: ${first.message}`);
  const tree: unknown = program;
  if (!isNode(tree)) throw new Error(`${file.path} gave no syntax tree`);
  return [...everyNode(tree)];
};

const textOf = (node: unknown): string | null =>
  isNode(node) && node.type === "Literal" && typeof node["value"] === "string" ? node["value"] : null;

const nameOf = (node: unknown): string | null =>
  isNode(node) && node.type === "Identifier" && typeof node["name"] === "string" ? node["name"] : null;

const argumentsOf = (node: TreeNode): readonly unknown[] => {
  const given = node["arguments"];
  return Array.isArray(given) ? given : [];
};

/** The module a node names: import, export from, import(), require(), and a relative `new URL("…", import.meta.url)`. */
const reachedBy = (node: TreeNode): string | null => {
  switch (node.type) {
    case "ImportDeclaration":
    case "ExportAllDeclaration":
    case "ExportNamedDeclaration":
    case "ImportExpression":
    case "TSImportType":
      return textOf(node["source"]);
    case "CallExpression":
      return nameOf(node["callee"]) === "require" ? textOf(argumentsOf(node)[0]) : null;
    case "NewExpression": {
      const text = nameOf(node["callee"]) === "URL" ? textOf(argumentsOf(node)[0]) : null;
      return text !== null && text.startsWith(".") ? text : null;
    }
    default:
      return null;
  }
};

export interface Reached {
  readonly specifier: string;
  readonly line: number;
}

const lineOf = (text: string, offset: number): number => text.slice(0, offset).split("\n").length;

/** Every module that the file reaches, however it does so. */
export const reachedModules = (file: SourceFile): readonly Reached[] =>
  nodesOf(file).flatMap((node) => {
    const specifier = reachedBy(node);
    return specifier === null ? [] : [{ specifier, line: lineOf(file.text, node.start) }];
  });

/** `object.property` as text, for a plain member of a plain name; else null. */
const memberOf = (node: TreeNode): string | null => {
  if (node.type !== "MemberExpression") return null;
  const object = nameOf(node["object"]);
  const property = node["computed"] === true ? textOf(node["property"]) : nameOf(node["property"]);
  return object === null || property === null ? null : `${object}.${property}`;
};

const impureMembers = new Set([
  "Date.now",
  "Math.random",
  "performance.now",
  "crypto.randomUUID",
  "crypto.getRandomValues",
]);

const impurityOf = (node: TreeNode): string | null => {
  const member = memberOf(node);
  if (member !== null && impureMembers.has(member)) return member;
  if (member?.startsWith("console.") === true) return member;
  if (node.type === "NewExpression" && nameOf(node["callee"]) === "Date" && argumentsOf(node).length === 0)
    return "new Date() without an argument";
  if (node.type === "CallExpression" && nameOf(node["callee"]) === "Date") return "Date()";
  return null;
};

export interface Impurity {
  readonly what: string;
  readonly line: number;
}

/** Every use of a clock, a random source or the console. */
export const impurities = (file: SourceFile): readonly Impurity[] =>
  nodesOf(file).flatMap((node) => {
    const what = impurityOf(node);
    return what === null ? [] : [{ what, line: lineOf(file.text, node.start) }];
  });

/** Whether the file has a default export. */
export const hasDefaultExport = (file: SourceFile): boolean =>
  nodesOf(file).some((node) => node.type === "ExportDefaultDeclaration");
