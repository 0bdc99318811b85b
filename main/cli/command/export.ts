/** `export`: a whole ledger as a document, or rows of a plan case as a table. */
import { PlanningError } from "../../../app/ground/failure.ts";
import type { LedgerInfo } from "../../../app/ledger/ledger-view.ts";
import { documentText } from "../../../app/exchange/ledger-document.ts";
import { type RowKind, rowKinds } from "../../../app/ledger/column-mapping.ts";
import { refusePlace, writeOut } from "../../page/write-out.ts";
import { csvOf, declareCsv } from "../csv-options.ts";
import { chooseCase } from "../choose-case.ts";
import {
  type CliCommand,
  type CommandHost,
  ledgerPath,
  optionText,
  type OwnDocument,
  placeOf,
} from "../cli-command.ts";

const exportRows = async (
  host: CommandHost,
  ledger: LedgerInfo,
  kind: RowKind,
  options: Readonly<Record<string, unknown>>,
) => {
  const to = placeOf(options, ledger.path);
  const format = to?.path.toLowerCase().endsWith(".xlsx") === true ? "xlsx" : "csv";
  const planCaseId = chooseCase(ledger, optionText(options, "case")).id;
  const csv = csvOf(options, format === "csv");
  const { base64 } = await host.ask("rows.export", { kind, planCaseId, format, csv });
  const bytes = Buffer.from(base64, "base64");
  if (to === null) return { holds: true, json: { csv: bytes.toString() }, text: bytes.toString().trimEnd() };
  writeOut(to.path, bytes, to);
  return { holds: true, json: { written: to.path }, text: `Wrote ${to.path}.` };
};

export const exportCommand = {
  name: "export",
  summary: "Write a whole ledger as a JSON document, or rows of a plan case as a table that can be imported again",
  examples: [
    { line: "export tarn.coldstock --to tarn.json", does: "the whole ledger as JSON" },
    { line: "export tarn.coldstock --rows flights --to flights.csv", does: "the flights as a table" },
    {
      line: "export tarn.coldstock --rows flights --to sheet.csv --csv-mark --csv-dates spreadsheet",
      does: "as a spreadsheet program likes it",
    },
    { line: "export tarn.coldstock --rows readings", does: "gauge readings as CSV, on the standard output" },
  ],
  declare: (command) => {
    declareCsv(command)
      .argument("<ledger>", "path of the ledger file")
      .option("--to <file>", "where to write it (default, and -: standard output)")
      .option("--replace", "write over a file that stands there already")
      .option("--rows <kind>", "flights, sorties or readings alone: CSV, or a workbook where --to ends in .xlsx")
      .option("--case <name>", "rows: plan case by name or id (default: the first)");
  },
  act: async (host, given, options) => {
    const ledger = await host.ask("ledger.open", { path: ledgerPath(given) });
    const to = placeOf(options, ledger.path);
    const rows = optionText(options, "rows");
    if (rows !== undefined) {
      const kind = rowKinds.find((each) => each === rows);
      if (kind === undefined)
        throw new PlanningError("invalid input", `Rows are one of: ${rowKinds.join(", ")}.`, "--rows");
      return await exportRows(host, ledger, kind, options);
    }
    csvOf(options, false);
    if (to !== null) refusePlace(to.path, to);
    const text = documentText(await host.ask("ledger.export", {}));
    if (to === null)
      return { holds: true, json: JSON.parse(text) as OwnDocument, text: text.trimEnd(), isDocument: true };
    writeOut(to.path, text, to);
    return { holds: true, json: { written: to.path }, text: `Wrote ${to.path}.` };
  },
} satisfies CliCommand;
