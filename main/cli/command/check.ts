/** `check`: will every sortie be supplied? */
import { resolve } from "node:path";
import { chooseCase } from "../choose-case.ts";
import { argument, type CliCommand, optionText } from "../cli-command.ts";
import { supplyText } from "../supply-text.ts";

export const checkCommand: CliCommand = {
  name: "check",
  summary: "Check for every sortie of a plan case whether the lander will be fuelled",
  declare: (command) => {
    command
      .argument("<ledger>", "path of the ledger file")
      .option("--case <name>", "plan case by name or id (default: the first)")
      .option("--strict", "exit status 1 also where the plan holds only on conditions");
  },
  act: async (desk, given, options) => {
    const ledger = await desk.ask("ledger.open", { path: resolve(argument(given, 0)) });
    const planCase = chooseCase(ledger, optionText(options, "case"));
    const { plan } = await desk.ask("plan.view", { planCaseId: planCase.id });
    const report = await desk.ask("supply.check", { planCaseId: planCase.id });
    return {
      holds: report.holds && !(options["strict"] === true && report.verdict.conditions.length > 0),
      json: { ledger: ledger.path, asOfAt: ledger.asOfAt, planCaseId: planCase.id, ...report },
      text: supplyText(ledger, plan, report),
    };
  },
};
