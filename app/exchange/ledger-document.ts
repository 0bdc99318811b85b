/** The whole ledger as JSON text: one row a line, one text for one content, read back strictly. */
import { z } from "zod";
import { PlanningError } from "../ground/failure.ts";
import type { LedgerDocument } from "../ledger/ledger-view.ts";
import { parseInput } from "../ground/parse-input.ts";
import { readJson, UnreadableJson } from "../format/read-json.ts";
import { type Entity, type EntityKind, entityKinds, entitySchemas } from "../entity/entities.ts";
import { type Reading, journalEntry, reading } from "../ledger/journal.ts";
import { instant, label } from "../ground/quantity.ts";
import { keptIssue } from "../ledger/report-issue.ts";
import { checkDocument } from "./check-document.ts";
import { DOCUMENT_FORM } from "./document-form.ts";

/** A kind that a document does not name has no rows: so documents outlive the invention of new kinds. */
const rowsOf = <K extends EntityKind>(kind: K) => z.array(entitySchemas[kind]).default([]);

const entities = z.strictObject(
  Object.fromEntries(entityKinds.map((kind) => [kind, rowsOf(kind)])) as {
    [K in EntityKind]: z.ZodDefault<z.ZodArray<(typeof entitySchemas)[K]>>;
  },
);

/** What is read; its description as a schema is published (`ledger-document.schema.json`, which a test makes). */
export const ledgerDocument = z.strictObject({
  format: z.literal("coldstock-ledger"),
  version: z.literal(1),
  /** Form of the ledger that it was exported from; a document of before forms were written names none. */
  form: z.int().min(1).max(DOCUMENT_FORM).optional(),
  programme: label,
  isDemonstration: z.boolean(),
  asOfAt: instant.nullable(),
  entities,
  entries: z.array(journalEntry),
  readings: z.array(reading),
  /** A document of before there were issues names none. */
  reportIssues: z.array(keptIssue).default([]),
});

/** The most text that is read, characters. */
export const MAX_TEXT = 64_000_000;

const list = (rows: readonly unknown[], indent: string): string =>
  rows.length === 0 ? "[]" : `[\n${rows.map((row) => `${indent} ${JSON.stringify(row)}`).join(",\n")}\n${indent}]`;

const sortedById = (rows: readonly Entity<EntityKind>[]) => rows.toSorted((a, b) => (a.id < b.id ? -1 : 1));

const inOrderOfTime = (rows: readonly Reading[]) => rows.toSorted((a, b) => a.at - b.at || (a.id < b.id ? -1 : 1));

/** The document's text: properties in the order of declaration, rows of the plan by id, entries and issues as written, readings by time, a line each. Ends in a newline. */
export const documentText = (document: LedgerDocument): string => {
  const plain = ledgerDocument.parse(document);
  const kinds = entityKinds.map((kind) => `  "${kind}": ${list(sortedById(plain.entities[kind]), "  ")}`);
  return [
    "{",
    ` "format": ${JSON.stringify(plain.format)},`,
    ` "version": ${plain.version},`,
    ` "form": ${DOCUMENT_FORM},`,
    ` "programme": ${JSON.stringify(plain.programme)},`,
    ` "isDemonstration": ${plain.isDemonstration},`,
    ` "asOfAt": ${JSON.stringify(plain.asOfAt)},`,
    ` "entities": {\n${kinds.join(",\n")}\n },`,
    ` "entries": ${list(plain.entries, " ")},`,
    ` "readings": ${list(inOrderOfTime(plain.readings), " ")},`,
    ` "reportIssues": ${list(plain.reportIssues, " ")}`,
    "}\n",
  ].join("\n");
};

const parseJson = (text: string): unknown => {
  if (text.length > MAX_TEXT)
    throw new PlanningError("invalid input", `The text is too long: more than ${MAX_TEXT / 1e6} million characters.`);
  try {
    return readJson(text);
  } catch (error) {
    if (error instanceof UnreadableJson)
      throw new PlanningError("invalid input", `The text cannot be read as JSON: ${error.message}.`);
    throw error;
  }
};

const refuseOther = (value: unknown): void => {
  if (typeof value !== "object" || value === null || !("format" in value) || value.format !== "coldstock-ledger")
    throw new PlanningError("invalid input", "The text is JSON, but not an exported ledger.", "format");
  const newer = (found: string, known: number, field: string): PlanningError =>
    new PlanningError(
      "invalid input",
      `The ledger was exported by a newer version of this program (${found}; this program knows ${known}).`,
      field,
    );
  if ("version" in value && typeof value.version === "number" && value.version > 1)
    throw newer(`format ${value.version}`, 1, "version");
  if ("form" in value && typeof value.form === "number" && value.form > DOCUMENT_FORM)
    throw newer(`form ${value.form}`, DOCUMENT_FORM, "form");
};

/**
 * Reads a document. Throws "invalid input" or "refused" with the field: not JSON, another format, a wrong shape, a broken
 * rule of the plan, an entry that does not balance.
 */
export const parseDocument = (text: string): LedgerDocument => {
  const value = parseJson(text);
  refuseOther(value);
  const { form: _form, ...document }: LedgerDocument & { readonly form?: number | undefined } = parseInput(
    ledgerDocument,
    value,
  );
  checkDocument(document);
  return document;
};
