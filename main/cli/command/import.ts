/** `import`: a ledger from a document, or rows of a table or calendar into a ledger. */
import { resolve } from "node:path";
import { readRowsFile, rowsOf } from "../../page/rows-file.ts";
import { readTextFile, textOf } from "../../page/text-file.ts";
import { argument, type CliCommand, ledgerPath, STREAM } from "../cli-command.ts";
import { importRows } from "./import-rows.ts";

const gathered = (value: string, before: readonly string[] | undefined): readonly string[] => [
  ...(before ?? []),
  value,
];

/** Tables and calendars never begin like a JSON document. */
const isJsonText = (bytes: Buffer): boolean => /^\uFEFF?\s*\{/.test(bytes.subarray(0, 100).toString());

export const importCommand = {
  name: "import",
  summary: "Make a ledger from a JSON document, or bring rows of a table (CSV, workbook) or calendar into a ledger",
  examples: [
    { line: "import tarn.json copy.coldstock", does: "make a ledger from an exported one" },
    { line: "import flights.csv tarn.coldstock --preview", does: "say what a table would change" },
    { line: "import flights.csv tarn.coldstock", does: "and take it in" },
  ],
  declare: (command) => {
    command
      .argument("<file>", "the JSON document, table (.csv, .xlsx) or calendar (.ics); -: from the standard input")
      .argument("<ledger>", "path of the ledger to make (JSON), or that takes the rows")
      .option("--rows <kind>", "what the rows are: flights, sorties or readings (default: as the headings say)")
      .option("--case <name>", "plan case by name or id (default: the first)")
      .option("--sheet <name>", "workbook: which sheet (default: the one whose headings fit best)")
      .option(
        "--map <their=ours>",
        'what a column is, "H2 [t]=hydrogen t", "Clock=arrives time"; "Remark=" leaves it out; as often as needed',
        gathered,
      )
      .option("--dates <form>", "year first, day first, month first or serial (days as spreadsheets count)")
      .option("--decimals <sign>", "point or comma")
      .option("--separator <sign>", "comma, semicolon, tab or bar")
      .option("--zone <name>", "calendar: time zone of times that bear none (UTC, Europe/Paris)")
      .option(
        "--whole-days <time>",
        'calendar: when events of whole days begin and end (UTC): "midnights", or a time of day as 06:00',
      )
      .option("--book", "gauge readings: take each into the books; without it they stand beside them and move nothing")
      .option(
        "--open-from <source>",
        "with --book: books that are not open open with the first reading of their tank, as come from this source",
      )
      .option("--preview", "say what would come in, and change nothing")
      .option("--good-rows-only", "import the valid rows although others have errors");
  },
  act: async (host, given, options) => {
    const name = argument(given, 0);
    const path = ledgerPath(given, 1);
    const piped = name === STREAM ? host.input() : null;
    const isDocument = piped === null ? name.toLowerCase().endsWith(".json") : isJsonText(piped);
    if (options["rows"] !== undefined || !isDocument) {
      const source = piped === null ? readRowsFile(resolve(name)) : rowsOf("standard input", piped);
      return await importRows(host, source, path, options);
    }
    const text = piped === null ? readTextFile(resolve(name)) : textOf("standard input", piped);
    const ledger = await host.ask("ledger.import", { path, text });
    return { holds: true, json: ledger, text: `Made ${ledger.path}: ${ledger.programme}.` };
  },
} satisfies CliCommand;
