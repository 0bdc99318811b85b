/** `losses`: the statement by month, or with `--fit` a loss rate fitted on the readings of a tank. */
import { PlanningError } from "../../../app/ground/failure.ts";
import type { LedgerInfo, PlanView } from "../../../app/ledger/ledger-view.ts";
import type { Entity } from "../../../app/entity/entities.ts";
import { parseInstant } from "../../../app/format/time.ts";
import { usualPartAt } from "../../../app/losses/fit/usual-part.ts";
import { calendarMonthEdges, missionMonthEdges, monthLabel } from "../../../app/losses/months.ts";
import { chooseCase } from "../choose-case.ts";
import { type CliCommand, type CommandHost, ledgerPath, optionText } from "../cli-command.ts";
import { fitText, statementText } from "../losses-text.ts";

type Options = Readonly<Record<string, unknown>>;

/** Beyond this many σ the books and the model are said to differ: exit status 1. */
const DIFFERS_BEYOND_SIGMA = 4;

const instantOf = (options: Options, name: string): number | null => {
  const text = optionText(options, name);
  return text === undefined ? null : parseInstant(text, `--${name}`);
};

/** From the first record to the as-of instant, unless said otherwise. */
const spanOf = (view: PlanView, ledger: LedgerInfo, options: Options): { fromAt: number; untilAt: number } => {
  const untilAt = instantOf(options, "until") ?? ledger.asOfAt;
  const firsts = view.past.flatMap(({ segments }) => segments.slice(0, 1).map(({ startAt }) => startAt));
  // The month of the first record begins before it, so that the opening of the books is in the statement.
  const fromAt = instantOf(options, "from") ?? Math.min(...firsts, untilAt - 1);
  return { fromAt, untilAt };
};

const chooseTank = (view: PlanView, wanted: string): Entity<"tank"> => {
  const found = view.plan.tanks.find((tank) => tank.id === wanted || tank.name === wanted);
  if (found !== undefined) return found;
  const names = view.plan.tanks.map((tank) => tank.name).join(", ");
  throw new PlanningError("not found", `There is no tank "${wanted}". There are: ${names}.`, "--fit");
};

const partOf = (text: string): "k" | "c" | "k and c" => {
  if (text === "k" || text === "c") return text;
  if (text === "both") return "k and c";
  throw new PlanningError("invalid input", "--part is one of: k, c, both.", "--part");
};

const statement = async (host: CommandHost, ledger: LedgerInfo, view: PlanView, options: Options) => {
  const missionStartAt = instantOf(options, "missionStart");
  const { fromAt, untilAt } = spanOf(view, ledger, options);
  const edges =
    missionStartAt === null ? calendarMonthEdges(fromAt, untilAt) : missionMonthEdges(missionStartAt, fromAt, untilAt);
  const planCaseId = view.plan.planCase.id;
  const book = await host.ask("losses.statement", { planCaseId, edges: [...edges], withComparison: true });
  const far = book.comparisons.filter((row) => Math.abs(row.differenceInSigma ?? 0) > DIFFERS_BEYOND_SIGMA);
  const text = statementText(view.plan, book, (at) => monthLabel(at, missionStartAt));
  return {
    holds: far.length === 0,
    json: { ledger: ledger.path, ...book },
    text: far.length === 0 ? text : `${text}\n\nBooked and predicted differ by more than ${DIFFERS_BEYOND_SIGMA} σ.`,
  };
};

const fit = async (host: CommandHost, ledger: LedgerInfo, view: PlanView, options: Options, name: string) => {
  const tank = chooseTank(view, name);
  const leftOut = optionText(options, "leaveOut");
  const part = optionText(options, "part");
  const span = spanOf(view, ledger, options);
  const result = await host.ask("losses.fit", {
    planCaseId: view.plan.planCase.id,
    tankId: tank.id,
    ...span,
    fitted: part === undefined ? usualPartAt(view.plan.lossPeriods, tank.id, span.untilAt) : partOf(part),
    held: null,
    rateChanges: options["asOne"] === true ? ("as one" as const) : ("apart" as const),
    leftOutIds: leftOut === undefined ? [] : leftOut.split(","),
  });
  return {
    holds: result.cannotAdoptBecause === null,
    json: { ledger: ledger.path, tankId: tank.id, ...result },
    text: fitText(tank.name, result),
  };
};

export const lossesCommand = {
  name: "losses",
  summary: "Print the loss statement by month, or fit a loss rate on the gauge readings",
  examples: [
    { line: "losses tarn.coldstock", does: "the loss statement by calendar month" },
    { line: "losses tarn.coldstock --from 2031-01-01 --json", does: "the same for a script, from January" },
  ],
  declare: (command) => {
    command
      .argument("<ledger>", "path of the ledger file")
      .option("--case <name>", "plan case by name or id, for the prediction (default: the first)")
      .option("--from <date>", "begins with the month of this date (default: the first record)")
      .option("--until <date>", "ends with the month of this date (default: the as-of instant)")
      .option("--mission-start <date>", "count mission months of 30 days from here instead of calendar months")
      .option("--fit <tank>", "fit a loss rate on the readings of this tank in the span")
      .option(
        "--part <part>",
        "what to fit: k (share a day), c (kg a day) or both (default: k, or c for a heat balance)",
      )
      .option("--as-one", "fit one rate to all readings, also where the rate in force changes (default: kept apart)")
      .option("--leave-out <ids>", "readings to leave out of the fit, comma-separated ids");
  },
  act: async (host, given, options) => {
    const ledger = await host.ask("ledger.open", { path: ledgerPath(given) });
    const view = await host.ask("plan.view", { planCaseId: chooseCase(ledger, optionText(options, "case")).id });
    const tank = optionText(options, "fit");
    return tank === undefined
      ? await statement(host, ledger, view, options)
      : await fit(host, ledger, view, options, tank);
  },
} satisfies CliCommand;
