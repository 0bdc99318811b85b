/** `risk`: how likely the plan is to hold. Ctrl-C leaves the answer of the runs so far, which says so. */
import { PlanningError } from "../../../app/ground/failure.ts";
import { chooseCase } from "../choose-case.ts";
import { type CliCommand, ledgerPath, optionText } from "../cli-command.ts";
import { lookBackLines } from "../look-back-lines.ts";
import { differenceText, riskText } from "../risk-text.ts";
import { typedNumber } from "../typed-number.ts";

const USUAL_RUNS = 100_000;
/** With --until-error alone: no more than this. */
const MAX_RUNS = 10_000_000;
const USUAL_SEED = 1;
/** A pair of runs keeps what becomes of every sortie. */
const MAX_PAIRED = 1_000_000;

type Options = Readonly<Record<string, unknown>>;

const numberOf = (options: Options, name: string, flag: string, isRight: (value: number) => boolean, words: string) => {
  const text = optionText(options, name);
  if (text === undefined) return undefined;
  const value = typedNumber(text, "", flag, words);
  if (isRight(value)) return value;
  throw new PlanningError("invalid input", words, flag);
};

export const riskCommand = {
  name: "risk",
  summary:
    "Run a plan case many times over its uncertain inputs: how likely each sortie flies, when, and when all is done",
  examples: [
    { line: "risk tarn.coldstock --runs 4096", does: "probabilities from 4,096 runs" },
    { line: "risk tarn.coldstock --until-error 0.02", does: "until the standard error is two percentage points" },
  ],
  declare: (command) => {
    command
      .argument("<ledger>", "path of the ledger file")
      .option("--case <name>", "plan case by name or id (default: the first)")
      .option("--runs <number>", `so many runs (default: ${String(USUAL_RUNS)}; with --until-error: at most so many)`)
      .option(
        "--until-error <share>",
        "run until the standard error of “all fly when planned” is at most this, for instance 0.005",
      )
      .option("--seed <number>", `whole number from which the draws follow (default: ${String(USUAL_SEED)})`)
      .option("--compare <name>", "another plan case: how its probabilities differ, run by run under the same draws");
  },
  act: async (host, given, options) => {
    const runs = numberOf(
      options,
      "runs",
      "--runs",
      (n) => Number.isInteger(n) && n >= 64,
      "--runs is a whole number, 64 or more.",
    );
    const untilError =
      numberOf(
        options,
        "untilError",
        "--until-error",
        (n) => n > 0 && n <= 0.5,
        "--until-error is a share above 0, at most 0.5: 0.005 is half a percentage point.",
      ) ?? null;
    const seed =
      numberOf(
        options,
        "seed",
        "--seed",
        (n) => Number.isInteger(n) && n >= 0 && n < 2 ** 32,
        "--seed is a whole number from 0 to 4294967295.",
      ) ?? USUAL_SEED;
    const ledger = await host.ask("ledger.open", { path: ledgerPath(given) });
    const planCase = chooseCase(ledger, optionText(options, "case"));
    const compare = optionText(options, "compare");
    const other = compare === undefined ? null : chooseCase(ledger, compare);
    if (other?.id === planCase.id)
      throw new PlanningError("invalid input", "--compare names another plan case than --case.", "--compare");
    const { plan } = await host.ask("plan.view", { planCaseId: planCase.id });
    const most = runs ?? (untilError === null ? USUAL_RUNS : MAX_RUNS);
    const answer = await host.ask("risk.run", {
      planCaseId: planCase.id,
      seed,
      runs: most,
      untilError,
      detail: "full",
    });
    const isWhole = answer.end === "number reached" || answer.end === "error reached";
    const difference =
      other === null || !isWhole
        ? null
        : await host.ask("risk.compare", {
            planCaseId: planCase.id,
            compareId: other.id,
            seed,
            runs: Math.min(answer.replications, MAX_PAIRED),
          });
    const texts = [...lookBackLines(plan), riskText(plan, answer)];
    if (other !== null && difference !== null) texts.push(differenceText(plan, other.name, difference));
    return {
      // What was stopped before it was done is no answer to rely on.
      holds: isWhole && (untilError === null || answer.end === "error reached"),
      json: { ledger: ledger.path, ...answer, difference },
      text: texts.join("\n\n"),
    };
  },
} satisfies CliCommand;
