/** `as-of`: pins the instant up to which the ledger is looked at, frees it again, or says where it stands. */
import { PlanningError } from "../../../app/ground/failure.ts";
import { formatMinute, parseInstant } from "../../../app/format/time.ts";
import { lookBackSentence } from "../../../app/ledger/look-back-words.ts";
import { chooseCase } from "../choose-case.ts";
import { argument, type CliCommand, ledgerPath } from "../cli-command.ts";

export const asOfCommand = {
  name: "as-of",
  summary: "Pin the as-of instant of a ledger, let it follow the last record again, or print where it stands",
  examples: [
    { line: "as-of tarn.coldstock", does: "where it stands" },
    { line: "as-of tarn.coldstock 2031-01-15", does: "pin it" },
    { line: "as-of tarn.coldstock --follow", does: "let it follow the last record again" },
  ],
  declare: (command) => {
    command
      .argument("<ledger>", "path of the ledger file")
      .argument("[date]", "pin it here: records after it are left out until it is freed")
      .option("--follow", "free it: it follows the last record");
  },
  act: async (host, given, options) => {
    const dateText = argument(given, 1);
    const isFreed = options["follow"] === true;
    if (isFreed && dateText !== "")
      throw new PlanningError("invalid input", "Give a date, or --follow, not both.", "--follow");
    const asOfAt = dateText === "" ? null : parseInstant(dateText, "date");
    const opened = await host.ask("ledger.open", { path: ledgerPath(given) });
    const ledger = isFreed || asOfAt !== null ? await host.ask("ledger.asOf", { asOfAt }) : opened;
    const { plan } = await host.ask("plan.view", { planCaseId: chooseCase(ledger, undefined).id });
    const stands = `${ledger.fileName} stands as of ${formatMinute(ledger.asOfAt)}, ${ledger.isAsOfPinned ? "pinned" : "and follows the last record"}.`;
    return {
      holds: true,
      json: {
        ledger: ledger.path,
        asOfAt: ledger.asOfAt,
        isPinned: ledger.isAsOfPinned,
        lookBack: plan.lookBack ?? null,
      },
      text: [stands, lookBackSentence(plan)].filter((line) => line !== null).join("\n"),
    };
  },
} satisfies CliCommand;
