/** `import`: a ledger from a document, or rows of a plan from CSV. */
import { basename, resolve } from "node:path";
import { type Input } from "../../../app/contract/contract.ts";
import { PlanningError } from "../../../app/contract/failure.ts";
import type { CsvPreview } from "../../../app/exchange/csv-preview.ts";
import { readTextFile } from "../../page/text-file.ts";
import { chooseCase } from "../choose-case.ts";
import { argument, type CliCommand, type Desk, optionText, type Outcome } from "../cli-command.ts";

type Rows = Input<"csv.import">["kind"];
const kinds: readonly Rows[] = ["flights", "sorties", "readings"];

const csvText = (preview: CsvPreview): string =>
  [
    `${preview.goodRows} of ${preview.rows} rows are good; ${preview.isTaken ? "taken" : "nothing was taken"}.`,
    ...preview.faults.map(
      ({ line, column, reason }) => `  line ${line}${column === null ? "" : `, ${column}`}: ${reason}`,
    ),
    ...preview.effects.map((effect) => `  ${effect}`),
  ].join("\n");

const importRows = async (
  desk: Desk,
  ledgerPath: string,
  text: string,
  options: Readonly<Record<string, unknown>>,
): Promise<Outcome> => {
  const kind = kinds.find((each) => each === optionText(options, "rows"));
  if (kind === undefined) throw new PlanningError("invalid input", `Rows are one of: ${kinds.join(", ")}.`, "--rows");
  const ledger = await desk.ask("ledger.open", { path: ledgerPath });
  const planCase = chooseCase(ledger, optionText(options, "case"));
  const asked = { kind, planCaseId: planCase.id, text };
  const preview =
    options["preview"] === true
      ? await desk.ask("csv.preview", asked)
      : await desk.ask("csv.import", { ...asked, goodRowsOnly: options["goodRowsOnly"] === true });
  return { holds: preview.faults.length === 0, json: preview, text: csvText(preview) };
};

export const importCommand: CliCommand = {
  name: "import",
  summary: "Make a ledger from a JSON document, or bring rows of a CSV file into a ledger",
  declare: (command) => {
    command
      .argument("<file>", "the JSON document or CSV file")
      .argument("<ledger>", "path of the ledger to make (JSON), or that takes the rows (CSV)")
      .option("--rows <kind>", "CSV: what the rows are: flights, sorties or readings")
      .option("--case <name>", "CSV: plan case by name or id (default: the first)")
      .option("--preview", "CSV: say what would come in, and change nothing")
      .option("--good-rows-only", "CSV: take the good rows although others are bad");
  },
  act: async (desk, given, options) => {
    const text = readTextFile(resolve(argument(given, 0)));
    const path = resolve(argument(given, 1));
    if (options["rows"] !== undefined) return await importRows(desk, path, text, options);
    if (basename(argument(given, 0)).toLowerCase().endsWith(".csv"))
      throw new PlanningError("invalid input", "Say what the rows are: --rows flights, sorties or readings.", "--rows");
    const ledger = await desk.ask("ledger.import", { path, text });
    return { holds: true, json: ledger, text: `Made ${ledger.path}: ${ledger.programme}.` };
  },
};
