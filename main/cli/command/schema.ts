/** `schema`: the published description of an exported ledger, for validators of any language. */
import { resolve } from "node:path";
import { ledgerDocumentSchema } from "../../../app/exchange/ledger-document.ts";
import { writeTextFile } from "../../page/text-file.ts";
import { type CliCommand, optionText } from "../cli-command.ts";

export const schemaCommand: CliCommand = {
  name: "schema",
  summary: "Write the JSON Schema (2020-12) of an exported ledger",
  declare: (command) => {
    command.option("--to <file>", "where to write it (default: standard output)");
  },
  act: async (_desk, _given, options) => {
    const schema = ledgerDocumentSchema();
    const text = JSON.stringify(schema, null, 2);
    const to = optionText(options, "to");
    if (to === undefined) return await Promise.resolve({ holds: true, json: schema, text });
    writeTextFile(resolve(to), `${text}\n`);
    return { holds: true, json: { written: resolve(to) }, text: `Wrote ${resolve(to)}.` };
  },
};
