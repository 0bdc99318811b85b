/** `demo`: make a demonstration ledger. */
import { resolve } from "node:path";
import { PlanningError } from "../../../app/ground/failure.ts";
import { argument, type CliCommand } from "../cli-command.ts";

export const demoCommand = {
  name: "demo",
  summary: "Make a demonstration ledger (entirely fictitious)",
  examples: [{ line: "demo beck beck.coldstock", does: "make the methane demonstration" }],
  declare: (command) => {
    command
      .argument("<name>", "tarn (hydrogen, oxygen, a lander) or beck (methane)")
      .argument("<ledger>", "path of the file to make; there must be none yet");
  },
  act: async (host, given) => {
    const which = argument(given, 0);
    if (which !== "tarn" && which !== "beck")
      throw new PlanningError("invalid input", "There are two demonstrations: tarn and beck.", "name");
    const ledger = await host.ask("ledger.demo", { path: resolve(argument(given, 1)), which });
    const cases = ledger.planCases.map((row) => row.name).join(", ");
    return { holds: true, json: ledger, text: `Made ${ledger.path}: ${ledger.programme}. Plan cases: ${cases}.` };
  },
} satisfies CliCommand;
