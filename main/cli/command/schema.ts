/** `schema`: the published description of an exported ledger, for validators of any language. */
import { ledgerDocumentSchema } from "../../../app/exchange/ledger-document.ts";
import { writeOut } from "../../page/write-out.ts";
import { type CliCommand, placeOf } from "../cli-command.ts";

export const schemaCommand: CliCommand = {
  name: "schema",
  summary: "Write the JSON Schema (2020-12) of an exported ledger",
  declare: (command) => {
    command
      .option("--to <file>", "where to write it (default: standard output)")
      .option("--replace", "write over a file that stands there already");
  },
  act: async (_desk, _given, options) => {
    const schema = ledgerDocumentSchema();
    const text = JSON.stringify(schema, null, 2);
    const to = placeOf(options, null);
    if (to === null) return await Promise.resolve({ holds: true, json: schema, text });
    writeOut(to.path, `${text}\n`, to);
    return { holds: true, json: { written: to.path }, text: `Wrote ${to.path}.` };
  },
};
