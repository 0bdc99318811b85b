/** Options of the command line that say how CSV is written. */
import type { Command } from "commander";
import { type CsvForm, type CsvSeparator, csvSeparators } from "../../app/format/csv-form.ts";
import { PlanningError } from "../../app/ground/failure.ts";
import { optionText } from "./cli-command.ts";

export const declareCsv = (command: Command): Command =>
  command
    .option("--csv-mark", "CSV: begin with a byte-order mark, by which some spreadsheet programs know UTF-8")
    .option("--csv-dates <form>", "CSV: exact (ISO 8601, the default) or spreadsheet (2031-02-20 14:05:00, UTC)")
    .option(
      "--csv-separator <sign>",
      "CSV: comma (the default), semicolon (with decimal commas), tab, or locale (as this system writes figures)",
    );

/** Semicolons where this system parts decimals by a comma. */
const ofLocale = (): CsvSeparator =>
  new Intl.NumberFormat().formatToParts(1.5).some(({ type, value }) => type === "decimal" && value === ",")
    ? "semicolon"
    : "comma";

const separatorOf = (given: string): CsvSeparator => {
  if (given === "locale") return ofLocale();
  const found = csvSeparators.find((each) => each === given);
  if (found !== undefined) return found;
  throw new PlanningError(
    "invalid input",
    `--csv-separator is one of: ${csvSeparators.join(", ")}, locale.`,
    "--csv-separator",
  );
};

/** Throws "invalid input" for a form that is none, and for these options beside another form than CSV. */
export const csvOf = (options: Readonly<Record<string, unknown>>, isCsv: boolean): CsvForm => {
  const dates = optionText(options, "csvDates") ?? "exact";
  if (dates !== "exact" && dates !== "spreadsheet")
    throw new PlanningError("invalid input", "--csv-dates is exact or spreadsheet.", "--csv-dates");
  const isAsked = ["csvMark", "csvDates", "csvSeparator"].some((name) => options[name] !== undefined);
  if (isAsked && !isCsv)
    throw new PlanningError("invalid input", "--csv-mark, --csv-dates and --csv-separator go with CSV alone.", "--csv");
  const separator = separatorOf(optionText(options, "csvSeparator") ?? "comma");
  return { hasMark: options["csvMark"] === true, dates, separator };
};
