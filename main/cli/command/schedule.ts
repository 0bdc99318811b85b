/** `schedule`: which further tanker flights keep every sortie supplied, what is proved of it, and when flights must leave. */
import { randomUUID } from "node:crypto";
import { PlanningError } from "../../../app/ground/failure.ts";
import { formatMinute, parseInstant } from "../../../app/format/time.ts";
import type { ResupplyAnswer } from "../../../app/resupply/answer.ts";
import { answerSentences, purposeWords } from "../../../app/resupply/answer-words.ts";
import { type ResupplyAsked, usualAsked } from "../../../app/resupply/asked.ts";
import { bracketWords } from "../../../app/resupply/bracket-words.ts";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import { chooseCase } from "../choose-case.ts";
import { type CliCommand, ledgerPath, optionText } from "../cli-command.ts";
import { namedNumbers } from "../named-numbers.ts";
import { lookBackLines } from "../look-back-lines.ts";
import { leaveByOutcome } from "../leave-by-outcome.ts";
import { repairOutcome } from "../repair-outcome.ts";
import { textTable } from "../text-table.ts";
import { typedNumber } from "../typed-number.ts";

const measures = ["flights", "cost", "loss"] as const;

const leastOf = (text: string | undefined): ResupplyAsked["least"] => {
  const found = measures.find((measure) => measure === (text ?? "flights"));
  if (found === undefined)
    throw new PlanningError("invalid input", `"${text}" cannot be minimised: flights, cost or loss can.`, "--least");
  return found;
};

/** A number in bounds; `words`: what is asked for. */
const numberIn = (text: string, unit: string, option: string, words: string, isRight: (value: number) => boolean) => {
  const value = typedNumber(text, unit, option, words);
  if (isRight(value)) return value;
  throw new PlanningError("invalid input", words, option);
};

const chanceOf = (text: string | undefined): number | null => {
  if (text === undefined) return null;
  const words = "--chance is a percentage from 1 to 99.9.";
  return numberIn(text, "%", "--chance", words, (percent) => percent >= 1 && percent <= 99.9) / 100;
};

const betweenOf = (text: string | undefined): ResupplyAsked["betweenDepots"] => {
  if (text === undefined) return null;
  const words = "--between-depots is a number of days from 0.01 to 1000.";
  const tripDays = numberIn(text, "days", "--between-depots", words, (days) => days >= 0.01 && days <= 1000);
  return { tripDays, costPerFlight: null };
};

const daysOf = (text: string | undefined): number => {
  if (text === undefined) return 0;
  const words = "--move-sorties is a whole number of days from 0 to 60.";
  const isRight = (days: number): boolean => Number.isInteger(days) && days >= 0 && days <= 60;
  return numberIn(text, "days", "--move-sorties", words, isRight);
};

const flightTable = (plan: PlanSnapshot, { changes }: ResupplyAnswer): string =>
  textTable(
    [
      { title: "Flight", align: "start" },
      { title: "Departs", align: "start" },
      { title: "Arrives", align: "start" },
      { title: "Change", align: "start" },
      { title: "Why", align: "start" },
    ],
    changes.map((change) => [
      change.flight.name,
      formatMinute(change.flight.departAt),
      formatMinute(change.flight.arriveAt),
      change.kind,
      purposeWords(plan, change),
    ]),
  );

export const scheduleCommand = {
  name: "schedule",
  summary: "Find the tanker flights that keep every sortie supplied, with proof that fewer cannot",
  examples: [
    { line: "schedule tarn.coldstock", does: "the fewest further flights" },
    { line: "schedule tarn.coldstock --leave-by", does: "when each planned flight must leave" },
  ],
  declare: (command) => {
    command
      .argument("<ledger>", "path of the ledger file")
      .option("--case <name>", "plan case by name or id (default: the first)")
      .option("--keep-with-any-one-lost", "also with any one of the flights lost")
      .option("--least <what>", "what to minimise: flights, cost or loss", "flights")
      .option("--margin <propellant=kg>", "keep so much above the reserve after each loading; several parted by commas")
      .option("--chance <percent>", "all sorties fly when planned with this probability at least, by the risk run")
      .option("--every <class=days>", "flights of the class arrive every so many days; several parted by commas")
      .option("--between-depots <days>", "tankers may also fly from one depot to another, in so many days")
      .option("--move-sorties <days>", "sorties may move by up to so many days; other dates are tried, not proved")
      .option("--until <date>", "only sorties that load by then")
      .option("--take <name>", "take the proposal as a new plan case of this name")
      .option("--repair", "the least change of what is not firm, instead of further flights alone")
      .option("--if-lost <flight>", "with --repair: as if this flight were lost; several parted by commas")
      .option(
        "--if-late <flight=days>",
        "with --repair: as if this flight slipped by so many days; several parted by commas",
      )
      .option("--leave-by", "no proposal: when each planned flight must leave at the latest, and may at the earliest");
  },
  act: async (host, given, options) => {
    if (options["leaveBy"] === true) return await leaveByOutcome(host, given, options);
    if (options["repair"] === true) return await repairOutcome(host, given, options);
    const lone = ["ifLost", "ifLate"].find((name) => options[name] !== undefined);
    if (lone !== undefined)
      throw new PlanningError("invalid input", "--if-lost and --if-late go with --repair.", "--repair");
    const least = leastOf(optionText(options, "least"));
    const until = optionText(options, "until");
    const untilAt = until === undefined ? null : parseInstant(until, "--until");
    const ledger = await host.ask("ledger.open", { path: ledgerPath(given) });
    const planCase = chooseCase(ledger, optionText(options, "case"));
    const { plan } = await host.ask("plan.view", { planCaseId: planCase.id });
    const lost = options["keepWithAnyOneLost"] === true ? 1 : 0;
    const margins = namedNumbers(
      optionText(options, "margin"),
      plan.propellants,
      "--margin",
      "propellant",
      "kg",
      "oxygen=200",
    ).map(({ id: propellantId, value: massKg }) => ({ propellantId, massKg }));
    const tankers = plan.craftClasses.filter(({ role }) => role === "tanker");
    const cadences = namedNumbers(
      optionText(options, "every"),
      tankers,
      "--every",
      "tanker class",
      "days",
      "Drover=30",
    );
    const classes =
      cadences.length === 0
        ? []
        : tankers.map(({ id, turnaroundDays }) => ({
            classId: id,
            hulls: null,
            turnaroundDays,
            costPerFlight: null,
            everyDays: cadences.find((row) => row.id === id)?.value ?? null,
          }));
    const chance = chanceOf(optionText(options, "chance"));
    const moveSortiesDays = daysOf(optionText(options, "moveSorties"));
    const betweenDepots = betweenOf(optionText(options, "betweenDepots"));
    const question = {
      ...usualAsked,
      classes,
      margins,
      chance,
      least,
      untilAt,
      lost,
      betweenDepots,
      moveSortiesDays,
    } as const;
    const answer = await host.ask("resupply.plan", { ...question, planCaseId: planCase.id }, (bracket) =>
      bracketWords(least === "cost" ? "cost" : "flights", bracket),
    );
    const name = optionText(options, "take");
    const taken = name !== undefined && answer.proposed !== null;
    if (taken)
      await host.ask("resupply.take", {
        fromId: planCase.id,
        newId: `plancase-${randomUUID()}`,
        name,
        added: answer.changes.filter(({ kind }) => kind === "added").map(({ flight }) => flight),
        craft: [...answer.craft],
        leftOutIds: answer.changes.filter(({ kind }) => kind === "left out").map(({ flight }) => flight.id),
        sortiesMoved: answer.sortiesMoved.map((row) => ({ ...row })),
      });
    const takenLine = taken ? [`Taken as plan case ${name}.`] : [];
    const notTaken = name !== undefined && !taken ? ["Nothing was taken: there is no proposal."] : [];
    return {
      holds: answer.standing === "plan" && answer.chance?.isReached !== false,
      json: { ledger: ledger.path, asOfAt: ledger.asOfAt, planCaseId: planCase.id, ...answer },
      text: [
        ...lookBackLines(plan),
        `${ledger.fileName}, plan case ${plan.planCase.name}, as of ${formatMinute(ledger.asOfAt)}`,
        "",
        ...answerSentences(plan, answer),
        ...(answer.changes.length > 0 ? ["", flightTable(plan, answer)] : []),
        ...takenLine,
        ...notTaken,
      ].join("\n"),
    };
  },
} satisfies CliCommand;
