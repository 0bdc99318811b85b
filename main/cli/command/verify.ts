/** `verify`: is the file sound? */
import { resolve } from "node:path";
import { argument, type CliCommand } from "../cli-command.ts";

export const verifyCommand: CliCommand = {
  name: "verify",
  summary: "Check a ledger file: integrity of the database, balance of the books, references",
  declare: (command) => {
    command.argument("<ledger>", "path of the ledger file");
  },
  act: async (desk, given) => {
    const ledger = await desk.ask("ledger.open", { path: resolve(argument(given, 0)) });
    const report = await desk.ask("ledger.verify", {});
    const counted = `${report.entries} entries, ${report.postings} postings`;
    return {
      holds: report.isSound,
      json: { ledger: ledger.path, ...report },
      text: report.isSound
        ? `${ledger.fileName} is sound: ${counted}.`
        : [`${ledger.fileName} is not sound (${counted}):`, ...report.faults.map((fault) => `  ${fault}`)].join("\n"),
    };
  },
};
