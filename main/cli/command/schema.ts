/** `schema`: the published description of an exported ledger, or of a command's answer, for validators of any language. */
import { PlanningError } from "../../../app/ground/failure.ts";
import { writeOut } from "../../page/write-out.ts";
import { answerNames, answerSchema } from "../answer-schema.ts";
import { argument, type CliCommand, type OwnDocument, placeOf } from "../cli-command.ts";
import ledgerDocument from "../../../app/exchange/ledger-document.schema.json" with { type: "json" };

const LEDGER = "ledger";

const schemaOf = (of: string): OwnDocument => {
  if (of === LEDGER) return ledgerDocument;
  const schema = answerSchema(of);
  if (schema !== null) return schema;
  throw new PlanningError(
    "invalid input",
    `There is no schema of "${of}". There are: ${[LEDGER, ...answerNames].join(", ")}.`,
    "of",
  );
};

export const schemaCommand = {
  name: "schema",
  summary: "Write the JSON Schema (2020-12) of an exported ledger, or of what a command prints with --json",
  examples: [
    { line: "schema --to ledger.schema.json", does: "of an exported ledger" },
    { line: "schema check", does: "of what check --json prints" },
  ],
  declare: (command) => {
    command
      .argument("[of]", "ledger, or the name of a command", LEDGER)
      .option("--to <file>", "where to write it (default, and -: standard output)")
      .option("--replace", "write over a file that stands there already");
  },
  act: async (_desk, given, options) => {
    const schema = schemaOf(argument(given, 0));
    const text = JSON.stringify(schema, null, 2);
    const to = placeOf(options, null);
    if (to === null) return await Promise.resolve({ holds: true, json: schema, text, isDocument: true });
    writeOut(to.path, `${text}\n`, to);
    return { holds: true, json: { written: to.path }, text: `Wrote ${to.path}.` };
  },
} satisfies CliCommand;
