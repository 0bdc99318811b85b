/** `check`: will every sortie be supplied, and how likely, where that is known or asked for? */
import { PlanningError } from "../../../app/ground/failure.ts";
import { parseInstant } from "../../../app/format/time.ts";
import type { RiskAnswer } from "../../../app/risk/answer.ts";
import { isRiskThere } from "../../../app/risk/ask-risk.ts";
import { verdictChance } from "../../../app/risk/verdict-chance.ts";
import { chooseCase } from "../choose-case.ts";
import { type CliCommand, type CommandHost, ledgerPath, optionText } from "../cli-command.ts";
import { supplyText } from "../supply-text.ts";

/** Enough for one percentage point. */
const QUICK_RUNS = 4096;

/** The kept run with the most runs that is of the plan as it is now; null: none is. */
const keptRisk = async (host: CommandHost, planCaseId: string): Promise<RiskAnswer | null> => {
  const [best] = (await host.ask("risk.runs", {}))
    .filter((run) => run.planCaseId === planCaseId && !run.isStale)
    .toSorted((a, b) => b.replications - a.replications);
  return best === undefined ? null : await host.ask("risk.kept", { number: best.number });
};

/** What is known of the risk; with `--risk` it is run where no kept run is of the plan as it is now. */
const riskOf = async (host: CommandHost, planCaseId: string, isAsked: boolean): Promise<RiskAnswer | null> => {
  const kept = await keptRisk(host, planCaseId);
  if (kept !== null || !isAsked) return kept;
  return await host.ask("risk.run", { planCaseId, seed: 1, runs: QUICK_RUNS, untilError: null, detail: "quick" });
};

/** The part of the answer that stands beside the verdict. */
const riskJson = (risk: RiskAnswer | null) =>
  risk && {
    allFlyWhenPlanned: risk.allFlyWhenPlanned,
    allFly: risk.allFly,
    replications: risk.replications,
    seed: risk.seed,
    end: risk.end,
    inputs: risk.inputs,
    inputHash: risk.inputHash,
  };

export const checkCommand = {
  name: "check",
  summary: "Check for every sortie of a plan case whether the lander will be fuelled",
  examples: [
    { line: "check tarn.coldstock", does: "every sortie, with its margin; status 1 where one is short" },
    { line: "check tarn.coldstock --as-of 2031-01-15", does: "as it was known then" },
    { line: "check tarn.coldstock --json", does: "the same for a script" },
  ],
  declare: (command) => {
    command
      .argument("<ledger>", "path of the ledger file")
      .option("--case <name>", "plan case by name or id (default: the first)")
      .option(
        "--as-of <date>",
        "as it was known at this instant: later records are left out; the ledger stays as it is",
      )
      .option("--strict", "exit status 1 also where the plan holds only on conditions")
      .option(
        "--risk",
        "with the probability that all fly when planned; a kept run of the plan as it is now is named without it",
      );
  },
  act: async (host, given, options) => {
    const ledger = await host.ask("ledger.open", { path: ledgerPath(given) });
    const planCase = chooseCase(ledger, optionText(options, "case"));
    const asOfText = optionText(options, "asOf");
    if (asOfText !== undefined && options["risk"] === true)
      throw new PlanningError(
        "invalid input",
        "The risk is run as of the ledger's own as-of instant; set that with the command as-of.",
        "--risk",
      );
    const asked = {
      planCaseId: planCase.id,
      ...(asOfText === undefined ? {} : { asOfAt: parseInstant(asOfText, "--as-of") }),
    };
    const { plan } = await host.ask("plan.view", asked);
    const answer = await host.ask("supply.check", asked);
    // A kept run is of the ledger's own as-of instant.
    const risk =
      asOfText === undefined ? await riskOf(host, planCase.id, options["risk"] === true && isRiskThere(plan)) : null;
    const chance = risk === null ? null : verdictChance(risk, answer);
    return {
      holds: answer.holds && !(options["strict"] === true && answer.verdict.conditions.length > 0),
      json: {
        ledger: ledger.path,
        asOfAt: plan.asOfAt,
        lookBack: plan.lookBack ?? null,
        planCaseId: planCase.id,
        ...answer,
        risk: riskJson(risk),
      },
      text: supplyText(ledger, plan, answer, chance),
    };
  },
} satisfies CliCommand;
