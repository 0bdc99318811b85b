/** `report`: a plan case as PDF, page, workbook, calendar, or one table as CSV. */
import { extname, resolve } from "node:path";
import { PlanningError } from "../../../app/contract/failure.ts";
import { parseInstant } from "../../../app/ledger/time.ts";
import { reportForms } from "../../../app/report/request.ts";
import { writeBinaryFile } from "../../page/text-file.ts";
import { chooseCase } from "../choose-case.ts";
import { argument, type CliCommand, optionText } from "../cli-command.ts";

export const reportCommand: CliCommand = {
  name: "report",
  summary: "Write the report of a plan case; the ending of the file says the form: .pdf .html .xlsx .ics .csv",
  declare: (command) => {
    command
      .argument("<ledger>", "path of the ledger file")
      .argument("<file>", "the file to write")
      .option("--case <name>", "plan case by name or id (default: the first)")
      .option("--compare <name>", "another plan case to set beside it")
      .option("--from <date>", "the report's period begins (default: the first record)")
      .option("--until <date>", "and ends (default: the end of the forecast)")
      .option("--unit <unit>", "masses in t or kg", "t")
      .option("--paper <size>", "A4 or letter", "A4")
      .option("--table <id>", "CSV: which table, for instance supply or flights");
  },
  act: async (desk, given, options) => {
    const ledger = await desk.ask("ledger.open", { path: resolve(argument(given, 0)) });
    const target = resolve(argument(given, 1));
    const form = reportForms.find((each) => extname(target).toLowerCase() === `.${each}`);
    if (form === undefined)
      throw new PlanningError("invalid input", `A report is written as .${reportForms.join(", .")}.`, "file");
    const compare = optionText(options, "compare");
    const instantOf = (name: string): number | null => {
      const text = optionText(options, name);
      return text === undefined ? null : parseInstant(text, `--${name}`);
    };
    const file = await desk.ask("report.write", {
      planCaseId: chooseCase(ledger, optionText(options, "case")).id,
      compareId: compare === undefined ? null : chooseCase(ledger, compare).id,
      form,
      fromAt: instantOf("from"),
      untilAt: instantOf("until"),
      massUnit: oneOf(["t", "kg"], optionText(options, "unit"), "--unit"),
      paper: oneOf(["A4", "letter"], optionText(options, "paper"), "--paper"),
      sectionIds: null,
      tableId: optionText(options, "table") ?? null,
    });
    writeBinaryFile(target, Buffer.from(file.base64, "base64"));
    return { holds: true, json: { written: target, mediaType: file.mediaType }, text: `Wrote ${target}.` };
  },
};

const oneOf = <T extends string>(choices: readonly T[], given: string | undefined, option: string): T => {
  const choice = choices.find((each) => each === given);
  if (choice === undefined)
    throw new PlanningError("invalid input", `${option} is one of: ${choices.join(", ")}.`, option);
  return choice;
};
