/** The supply check as text: a table of sorties and propellants, the verdict with its reasons, the hinges, the latest departures. */
import type { LedgerInfo } from "../../app/ledger/ledger-view.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { massFigure, shortageFigure } from "../../app/format/mass.ts";
import { formatNumber, formatSigned } from "../../app/format/number.ts";
import { formatMinute } from "../../app/format/time.ts";
import { type VerdictChance, chanceSentence } from "../../app/risk/verdict-chance.ts";
import { lookBackSentence } from "../../app/ledger/look-back-words.ts";
import type { SortieSupply, SupplyAnswer } from "../../app/supply/answer.ts";
import { type TextColumn, textTable } from "./text-table.ts";
import { nameIn } from "../../app/words/named.ts";

const columns: readonly TextColumn[] = [
  { title: "Sortie", align: "start" },
  { title: "Loads", align: "start" },
  { title: "Propellant", align: "start" },
  { title: "Available kg", align: "end" },
  { title: "Required kg", align: "end" },
  { title: "Margin kg", align: "end" },
  { title: "Margin %", align: "end" },
  { title: "Status", align: "start" },
];

const rowsOf = (plan: PlanSnapshot, sortie: SortieSupply): string[][] =>
  (sortie.lines.length === 0 ? [null] : sortie.lines).map((line, i) => [
    i === 0 ? sortie.name : "",
    i === 0 ? formatMinute(sortie.plannedAt) : "",
    ...(line === null
      ? ["", "", "", "", "", sortie.status]
      : [
          nameIn(plan.propellants, line.propellantId),
          massFigure(line.availableKg, "kg"),
          massFigure(line.requiredKg, "kg"),
          shortageFigure(line.marginOverReserveKg, "kg", 0, true),
          formatSigned(line.marginPercent, 1),
          sortie.landerIsAway ? "lander away" : line.status,
        ]),
  ]);

const section = (title: string, lines: readonly string[]): string[] =>
  lines.length === 0 ? [] : ["", title, ...lines.map((line) => `  ${line}`)];

/** `chance`: the probability beside the verdict; null: it is not known. */
export const supplyText = (
  ledger: LedgerInfo,
  plan: PlanSnapshot,
  answer: SupplyAnswer,
  chance: VerdictChance | null,
): string => {
  const hinges = answer.hinges.map(
    ({ sortieId, flightId, becomes }) =>
      `${nameIn(plan.sorties, sortieId)} on ${nameIn(plan.flights, flightId)}${becomes === "does not fly" ? "" : " (it would wait)"}`,
  );
  const latest = answer.latestDeparture.map(({ flightId, at }) => {
    const until = at === null ? "no limit before the end of the forecast" : formatMinute(at);
    return `${nameIn(plan.flights, flightId)}: ${until}`;
  });
  const joint = answer.jointSlack.map(({ classId, flights, slackDays }) => {
    const span = slackDays === "any" ? "no limit before the end of the forecast" : `${formatNumber(slackDays, 1)} days`;
    return `${nameIn(plan.craftClasses, classId)} (${flights}): ${span}`;
  });
  const lookBack = lookBackSentence(plan);
  return [
    ...(lookBack === null ? [] : [lookBack]),
    `${ledger.fileName}, plan case ${plan.planCase.name}, as of ${formatMinute(plan.asOfAt)}`,
    "",
    textTable(
      columns,
      answer.sorties.flatMap((sortie) => rowsOf(plan, sortie)),
    ),
    "",
    `${answer.verdict.word}: ${answer.verdict.sentence}`,
    ...(chance === null ? [] : [chanceSentence(chance)]),
    ...section("Breaks the plan", answer.verdict.breaks),
    ...section("Conditions", answer.verdict.conditions),
    ...section("Notes", answer.verdict.notes),
    ...section("Hinges on (loss of the flight alone keeps the sortie from flying when planned)", hinges),
    ...section("All flights of a class together can slip by at most", joint),
    ...section("Latest departure with every sortie as it stands", latest),
  ].join("\n");
};
