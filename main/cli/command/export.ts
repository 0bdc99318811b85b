/** `export`: a whole ledger as a document, or rows of a plan case as a table. */
import { resolve } from "node:path";
import { PlanningError } from "../../../app/ground/failure.ts";
import type { LedgerInfo } from "../../../app/ledger/ledger-view.ts";
import { documentText } from "../../../app/exchange/ledger-document.ts";
import { type RowKind, rowKinds } from "../../../app/ledger/column-mapping.ts";
import { refusePlace, writeOut } from "../../page/write-out.ts";
import { chooseCase } from "../choose-case.ts";
import { argument, type CliCommand, type Desk, optionText, type Outcome, placeOf } from "../cli-command.ts";

const exportRows = async (
  desk: Desk,
  ledger: LedgerInfo,
  kind: RowKind,
  options: Readonly<Record<string, unknown>>,
): Promise<Outcome> => {
  const to = placeOf(options, ledger.path);
  const format = to?.path.toLowerCase().endsWith(".xlsx") === true ? "xlsx" : "csv";
  const planCaseId = chooseCase(ledger, optionText(options, "case")).id;
  const { base64 } = await desk.ask("rows.export", { kind, planCaseId, format });
  const bytes = Buffer.from(base64, "base64");
  if (to === null) return { holds: true, json: { csv: bytes.toString() }, text: bytes.toString().trimEnd() };
  writeOut(to.path, bytes, to);
  return { holds: true, json: { written: to.path }, text: `Wrote ${to.path}.` };
};

export const exportCommand: CliCommand = {
  name: "export",
  summary: "Write a whole ledger as a JSON document, or rows of a plan case as a table that can be imported again",
  declare: (command) => {
    command
      .argument("<ledger>", "path of the ledger file")
      .option("--to <file>", "where to write it (default: standard output)")
      .option("--replace", "write over a file that stands there already")
      .option("--rows <kind>", "flights, sorties or readings alone: CSV, or a workbook where --to ends in .xlsx")
      .option("--case <name>", "rows: plan case by name or id (default: the first)");
  },
  act: async (desk, given, options) => {
    const ledger = await desk.ask("ledger.open", { path: resolve(argument(given, 0)) });
    const to = placeOf(options, ledger.path);
    const rows = optionText(options, "rows");
    if (rows !== undefined) {
      const kind = rowKinds.find((each) => each === rows);
      if (kind === undefined)
        throw new PlanningError("invalid input", `Rows are one of: ${rowKinds.join(", ")}.`, "--rows");
      return await exportRows(desk, ledger, kind, options);
    }
    if (to !== null) refusePlace(to.path, to);
    const text = documentText(await desk.ask("ledger.export", {}));
    if (to === null) return { holds: true, json: JSON.parse(text), text: text.trimEnd() };
    writeOut(to.path, text, to);
    return { holds: true, json: { written: to.path }, text: `Wrote ${to.path}.` };
  },
};
