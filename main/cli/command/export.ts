/** `export`: a whole ledger as a document. */
import { resolve } from "node:path";
import { documentText } from "../../../app/exchange/ledger-document.ts";
import { writeTextFile } from "../../page/text-file.ts";
import { argument, type CliCommand, optionText } from "../cli-command.ts";

export const exportCommand: CliCommand = {
  name: "export",
  summary: "Write a whole ledger as a JSON document",
  declare: (command) => {
    command
      .argument("<ledger>", "path of the ledger file")
      .option("--to <file>", "where to write it (default: standard output)");
  },
  act: async (desk, given, options) => {
    await desk.ask("ledger.open", { path: resolve(argument(given, 0)) });
    const text = documentText(await desk.ask("ledger.export", {}));
    const to = optionText(options, "to");
    if (to === undefined) return { holds: true, json: JSON.parse(text), text: text.trimEnd() };
    writeTextFile(resolve(to), text);
    return { holds: true, json: { written: resolve(to) }, text: `Wrote ${resolve(to)}.` };
  },
};
