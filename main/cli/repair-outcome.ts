/** `schedule --repair`: after a slip or a loss, the least change that keeps every sortie supplied. */
import { randomUUID } from "node:crypto";
import { PlanningError } from "../../app/ground/failure.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { formatMinute, parseInstant } from "../../app/format/time.ts";
import { usualAsked } from "../../app/resupply/asked.ts";
import type { RepairAsked } from "../../app/resupply/repair-answer.ts";
import { repairSentences } from "../../app/resupply/repair-words.ts";
import { chooseCase } from "./choose-case.ts";
import { lookBackLines } from "./look-back-lines.ts";
import { type CommandHost, ledgerPath, optionText } from "./cli-command.ts";

type Options = Readonly<Record<string, unknown>>;

const flightNamed = (plan: PlanSnapshot, wanted: string, option: string): string => {
  const found = plan.flights.filter(({ id, name }) => id === wanted || name === wanted);
  const [flight] = found;
  if (flight === undefined) throw new PlanningError("not found", `There is no flight "${wanted}".`, option);
  if (found.length > 1)
    throw new PlanningError(
      "invalid input",
      `There are ${found.length} flights "${wanted}": name one by its id.`,
      option,
    );
  return flight.id;
};

const parts = (options: Options, name: string): readonly string[] =>
  (optionText(options, name) ?? "")
    .split(",")
    .map((part) => part.trim())
    .filter((part) => part !== "");

const mishapsOf = (plan: PlanSnapshot, options: Options): RepairAsked["mishaps"] => [
  ...parts(options, "ifLost").map((wanted) => ({
    kind: "lost" as const,
    flightId: flightNamed(plan, wanted, "--if-lost"),
  })),
  ...parts(options, "ifLate").map((part) => {
    const equalsAt = part.lastIndexOf("=");
    const days = Number(part.slice(equalsAt + 1));
    if (equalsAt < 1 || part.slice(equalsAt + 1).trim() === "" || !(days >= 0 && days <= 3650))
      throw new PlanningError("invalid input", "--if-late is a flight, = and days: Drover 4=12.", "--if-late");
    return { kind: "slips" as const, flightId: flightNamed(plan, part.slice(0, equalsAt).trim(), "--if-late"), days };
  }),
];

/** Takes the first way with `--take`. Throws for flights that there are not, and options that do not go with it. */
export const repairOutcome = async (host: CommandHost, given: readonly string[], options: Options) => {
  if (options["keepWithAnyOneLost"] !== undefined)
    throw new PlanningError("invalid input", "--keep-with-any-one-lost does not go with --repair.", "--repair");
  const until = optionText(options, "until");
  const ledger = await host.ask("ledger.open", { path: ledgerPath(given) });
  const planCase = chooseCase(ledger, optionText(options, "case"));
  const { plan } = await host.ask("plan.view", { planCaseId: planCase.id });
  const { classes, arrivals, isBeforeLoadings, blackouts, goal } = usualAsked;
  const answer = await host.ask("resupply.repair", {
    planCaseId: planCase.id,
    classes,
    arrivals,
    isBeforeLoadings,
    blackouts,
    goal,
    untilAt: until === undefined ? null : parseInstant(until, "--until"),
    mishaps: mishapsOf(plan, options),
  });
  const name = optionText(options, "take");
  const [way] = answer.ways;
  if (name !== undefined && way !== undefined)
    await host.ask("resupply.take", {
      fromId: planCase.id,
      newId: `plancase-${randomUUID()}`,
      name,
      added: [...way.taken.added],
      craft: [...way.taken.craft],
      leftOutIds: [...way.taken.leftOutIds],
      moved: [...way.taken.moved],
    });
  const takenLine =
    name === undefined
      ? []
      : [way === undefined ? "Nothing was taken: there is no repair to take." : `Taken as plan case ${name}.`];
  return {
    holds: answer.standing !== "none",
    json: { ledger: ledger.path, asOfAt: ledger.asOfAt, planCaseId: planCase.id, ...answer },
    text: [
      ...lookBackLines(plan),
      `${ledger.fileName}, plan case ${plan.planCase.name}, as of ${formatMinute(ledger.asOfAt)}`,
      "",
      ...repairSentences(plan, answer),
      ...takenLine,
    ].join("\n"),
  };
};
