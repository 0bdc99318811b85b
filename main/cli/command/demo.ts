/** `demo`: make a demonstration ledger. */
import { resolve } from "node:path";
import { PlanningError } from "../../../app/contract/failure.ts";
import { argument, type CliCommand, optionText } from "../cli-command.ts";

export const demoCommand: CliCommand = {
  name: "demo",
  summary: "Make a demonstration ledger (invented from beginning to end)",
  declare: (command) => {
    command
      .argument("<ledger>", "path of the file to make; there must be none yet")
      .option("--which <name>", "tarn (hydrogen, oxygen, a lander) or beck (methane)", "tarn");
  },
  act: async (desk, given, options) => {
    const which = optionText(options, "which");
    if (which !== "tarn" && which !== "beck")
      throw new PlanningError("invalid input", "There are two demonstrations: tarn and beck.", "--which");
    const ledger = await desk.ask("ledger.demo", { path: resolve(argument(given, 0)), which });
    const cases = ledger.planCases.map((row) => row.name).join(", ");
    return { holds: true, json: ledger, text: `Made ${ledger.path}: ${ledger.programme}. Plan cases: ${cases}.` };
  },
};
