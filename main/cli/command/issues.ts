/** `issues`: the reports that a ledger keeps. */
import { formatMinute } from "../../../app/format/time.ts";
import { shortHash } from "../../../app/report/format/subtitle.ts";
import { type CliCommand, ledgerPath } from "../cli-command.ts";
import { type TextColumn, textTable } from "../text-table.ts";

const columns: readonly TextColumn[] = [
  { title: "Issue", align: "end" },
  { title: "Issued, UTC", align: "start" },
  { title: "By", align: "start" },
  { title: "Plan case", align: "start" },
  { title: "Inputs", align: "start" },
  { title: "For", align: "start" },
];

export const issuesCommand = {
  name: "issues",
  summary: "List the issues of reports that a ledger keeps",
  examples: [{ line: "issues tarn.coldstock", does: "the issues that are kept" }],
  declare: (command) => {
    command.argument("<ledger>", "path of the ledger file");
  },
  act: async (host, given) => {
    await host.ask("ledger.open", { path: ledgerPath(given) });
    const issues = await host.ask("report.issues", {});
    const rows = issues.map(({ number, issuedAt, author, caseName, inputHash, note }) => [
      String(number),
      formatMinute(issuedAt),
      author,
      caseName,
      shortHash(inputHash),
      note,
    ]);
    return {
      holds: true,
      json: issues,
      text: rows.length === 0 ? "No report was issued yet. `report … --keep` issues one." : textTable(columns, rows),
    };
  },
} satisfies CliCommand;
