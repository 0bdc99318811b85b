/** `schedule --leave-by`: when each planned flight must leave at the latest, and may at the earliest. */
import { PlanningError } from "../../app/ground/failure.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { formatMinute } from "../../app/format/time.ts";
import type { LeaveByAnswer } from "../../app/resupply/leave-by-answer.ts";
import { classLeaveBySentence, leaveByReason } from "../../app/resupply/leave-by-words.ts";
import { chooseCase } from "./choose-case.ts";
import { type CommandHost, ledgerPath, optionText } from "./cli-command.ts";
import { textTable } from "./text-table.ts";
import { nameIn } from "../../app/words/named.ts";
import { lookBackLines } from "./look-back-lines.ts";

type Options = Readonly<Record<string, unknown>>;

/** Options that say what is proposed. */
const proposing = ["keepWithAnyOneLost", "until", "take", "repair", "ifLost", "ifLate"] as const;

/** Throws "invalid input" for options of a proposal. */
export const leaveByOutcome = async (host: CommandHost, given: readonly string[], options: Options) => {
  const other = proposing.find((name) => options[name] !== undefined);
  if (other !== undefined)
    throw new PlanningError(
      "invalid input",
      "--leave-by tells of the flights that are planned; options of a proposal do not go with it.",
      "--leave-by",
    );
  const ledger = await host.ask("ledger.open", { path: ledgerPath(given) });
  const planCase = chooseCase(ledger, optionText(options, "case"));
  const { plan } = await host.ask("plan.view", { planCaseId: planCase.id });
  const answer = await host.ask("resupply.leaveBy", { planCaseId: planCase.id });
  return {
    holds: true,
    json: { ledger: ledger.path, planCaseId: planCase.id, ...answer },
    text: [
      ...lookBackLines(plan),
      `${ledger.fileName}, plan case ${plan.planCase.name}, as of ${formatMinute(ledger.asOfAt)}`,
      "",
      ...(answer.flights.length === 0 ? ["No planned flight is still to leave."] : [leaveByTable(plan, answer)]),
      ...answer.classes.flatMap((row) => ["", classLeaveBySentence(plan, row)]),
    ].join("\n"),
  };
};

const leaveByTable = (plan: PlanSnapshot, { flights }: LeaveByAnswer): string =>
  textTable(
    [
      { title: "Flight", align: "start" },
      { title: "Earliest", align: "start" },
      { title: "Planned", align: "start" },
      { title: "Leave by", align: "start" },
      { title: "Why", align: "start" },
    ],
    flights.map((row) => [
      nameIn(plan.flights, row.flightId),
      formatMinute(row.earliestAt),
      formatMinute(row.departAt),
      row.latestAt === null ? "no limit" : formatMinute(row.latestAt),
      leaveByReason(plan, row),
    ]),
  );
