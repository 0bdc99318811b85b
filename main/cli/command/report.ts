/** `report`: a plan case as PDF, page, workbook, calendar, or one table as CSV; as a draft, as a new issue, or as one that is kept. */
import { extname, resolve } from "node:path";
import { PlanningError } from "../../../app/ground/failure.ts";
import type { LedgerInfo } from "../../../app/ledger/ledger-view.ts";
import { parseInstant } from "../../../app/format/time.ts";
import {
  type AskedChoices,
  type ReportForm,
  type ReportSubject,
  reportForms,
} from "../../../app/ledger/report-request.ts";
import { refusePlace, writeOut } from "../../page/write-out.ts";
import { csvOf, declareCsv } from "../csv-options.ts";
import { chooseCase } from "../choose-case.ts";
import { argument, type CliCommand, type CommandHost, ledgerPath, optionText, STREAM } from "../cli-command.ts";

type Options = Readonly<Record<string, unknown>>;

/** Options that say what a report is to hold; an issue that is kept holds what it held. */
const choosing = ["case", "compare", "from", "until", "unit", "paper", "sections", "windows", "leaveBy"] as const;

export const reportCommand = {
  name: "report",
  summary: "Write the report of a plan case; the extension sets the format: .pdf .html .xlsx .ics .csv",
  examples: [
    { line: "report tarn.coldstock report.pdf", does: "a draft as PDF" },
    { line: "report tarn.coldstock issue.pdf --keep --for Readiness", does: "issue it: the ledger keeps it" },
    { line: "report tarn.coldstock again.pdf --issue 1", does: "the same bytes as the issue, always" },
    { line: "report tarn.coldstock later.pdf --keep", does: "issue the next one" },
    { line: "report tarn.coldstock moved.pdf --issue 2 --against 1", does: "what moved between the two" },
    { line: "report tarn.coldstock - --form csv --table supply", does: "one table on the standard output" },
  ],
  declare: (command) => {
    declareCsv(command)
      .argument("<ledger>", "path of the ledger file")
      .argument("<file>", "the file to write; -: to the standard output")
      .option("--form <form>", "pdf, html, xlsx, ics or csv, where the file's ending does not say it")
      .option("--replace", "write over a file that stands there already")
      .option("--case <name>", "plan case by name or id (default: the first)")
      .option("--compare <name>", "another plan case to set beside it")
      .option("--from <date>", "the report's period begins (default: the first record)")
      .option("--until <date>", "and ends (default: the end of the forecast)")
      .option("--unit <unit>", "masses in t or kg (default: t)")
      .option("--paper <size>", "A4 or letter (default: A4)")
      .option("--sections <ids>", "some sections alone, in this order, for instance supply,verdict (default: all)")
      .option("--windows", "calendar: the depots' departure windows as well")
      .option(
        "--leave-by",
        "calendar: when each planned flight must leave at the latest, and what else is watched, as well",
      )
      .option("--table <id>", "CSV: which table, for instance supply or flights")
      .option("--keep", "issue it: the ledger keeps it for good under the next number")
      .option("--for <words>", "with --keep: what it is issued for, one line")
      .option("--issue <number>", "write an issue that the ledger keeps, byte for byte the same, always")
      .option("--against <number>", "with --issue: set it beside this issue, and tell what moved");
  },
  act: async (host, given, options) => {
    const name = argument(given, 1);
    const target = name === STREAM ? null : resolve(name);
    const form = formOf(target, optionText(options, "form"));
    const csv = csvOf(options, form === "csv");
    const ledger = await host.ask("ledger.open", { path: ledgerPath(given) });
    const permission = { mayReplace: options["replace"] === true, from: ledger.path };
    // Before anything is issued: an issue is for good.
    if (target !== null) refusePlace(target, permission);
    const of = await subjectOf(host, ledger, options);
    const file = await host.ask("report.write", { of, form, tableId: optionText(options, "table") ?? null, csv });
    const bytes = Buffer.from(file.base64, "base64");
    if (target !== null) writeOut(target, bytes, permission);
    const issue = of.kind === "draft" ? null : of.number;
    return {
      holds: true,
      json: { written: target, mediaType: file.mediaType, issue },
      text:
        target === null
          ? ""
          : `Wrote ${of.kind === "beside" ? `issue ${of.number} beside issue ${of.against} to ` : issue === null ? "" : `issue ${issue} to `}${target}.`,
      ...(target === null ? { bytes } : {}),
    };
  },
} satisfies CliCommand;

const formOf = (target: string | null, stated: string | undefined): ReportForm => {
  const wanted = stated?.toLowerCase() ?? (target === null ? "" : extname(target).toLowerCase().slice(1));
  const form = reportForms.find((each) => wanted === each);
  if (form !== undefined) return form;
  if (target === null || stated !== undefined)
    throw new PlanningError("invalid input", `Say which form with --form: ${reportForms.join(", ")}.`, "--form");
  throw new PlanningError("invalid input", `A report is written as .${reportForms.join(", .")}.`, "file");
};

/** The report that is meant; with `--keep` it is issued here. */
const subjectOf = async (host: CommandHost, ledger: LedgerInfo, options: Options): Promise<ReportSubject> => {
  const kept = optionText(options, "issue");
  const against = optionText(options, "against");
  if (against !== undefined && kept === undefined)
    throw new PlanningError(
      "invalid input",
      "--against sets one kept issue beside another: say which with --issue.",
      "--against",
    );
  const isToBeKept = options["keep"] === true;
  if (kept !== undefined) {
    const other = choosing.find((name) => options[name] !== undefined);
    if (other !== undefined || isToBeKept)
      throw new PlanningError(
        "invalid input",
        `An issue holds what it was issued with: --${other === "leaveBy" ? "leave-by" : (other ?? "keep")} does not go with --issue.`,
        "--issue",
      );
    const number = issueNumber(kept, "--issue");
    return against === undefined
      ? { kind: "issue", number }
      : { kind: "beside", number, against: issueNumber(against, "--against") };
  }
  const note = optionText(options, "for");
  if (note !== undefined && !isToBeKept)
    throw new PlanningError("invalid input", "--for says what an issue is for: it goes with --keep.", "--for");
  const choices = choicesOf(ledger, options);
  if (!isToBeKept) return { kind: "draft", choices };
  const issue = await host.ask("report.issue", { choices, note: note ?? "" });
  host.tell(`Issue ${issue.number} is kept in the ledger.`);
  return { kind: "issue", number: issue.number };
};

const issueNumber = (text: string, option: string): number => {
  if (/^[1-9]\d{0,5}$/.test(text)) return Number(text);
  throw new PlanningError("invalid input", `${option} is the number of an issue: 1, 2, 3 …`, option);
};

const choicesOf = (ledger: LedgerInfo, options: Options): AskedChoices => {
  const compare = optionText(options, "compare");
  const instantOf = (name: string): number | null => {
    const text = optionText(options, name);
    return text === undefined ? null : parseInstant(text, `--${name}`);
  };
  return {
    planCaseId: chooseCase(ledger, optionText(options, "case")).id,
    compareId: compare === undefined ? null : chooseCase(ledger, compare).id,
    fromAt: instantOf("from"),
    untilAt: instantOf("until"),
    massUnit: oneOf(["t", "kg"], optionText(options, "unit"), "--unit"),
    paper: oneOf(["A4", "letter"], optionText(options, "paper"), "--paper"),
    sectionIds:
      optionText(options, "sections")
        ?.split(",")
        .map((part) => part.trim()) ?? null,
    departureWindows: options["windows"] === true,
    leaveBy: options["leaveBy"] === true,
  };
};

/** The first is taken where none is given. */
const oneOf = <T extends string>(choices: readonly [T, ...T[]], given: string | undefined, option: string): T => {
  if (given === undefined) return choices[0];
  const choice = choices.find((each) => each === given);
  if (choice === undefined)
    throw new PlanningError("invalid input", `${option} is one of: ${choices.join(", ")}.`, option);
  return choice;
};
