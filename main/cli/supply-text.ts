/** The supply check as text: a table of sorties and propellants, the missing mass, the hinges, the findings. */
import type { LedgerInfo } from "../../app/contract/ledger-view.ts";
import type { PlanSnapshot } from "../../app/forecast/plan.ts";
import { formatMass, massFigure } from "../../app/format/mass.ts";
import { formatSigned } from "../../app/format/number.ts";
import { formatDate, formatMinute } from "../../app/ledger/time.ts";
import { findingSentence } from "../../app/supply/finding-sentence.ts";
import type { SortieSupply, SupplyReport } from "../../app/supply/report.ts";
import { type TextColumn, textTable } from "./text-table.ts";

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

const nameIn = (rows: readonly { readonly id: string; readonly name: string }[], id: string): string =>
  rows.find((row) => row.id === id)?.name ?? id;

const rowsOf = (plan: PlanSnapshot, sortie: SortieSupply): string[][] =>
  sortie.lines.map((line, i) => [
    i === 0 ? sortie.name : "",
    i === 0 ? formatMinute(sortie.plannedAt) : "",
    nameIn(plan.propellants, line.propellantId),
    massFigure(line.availableKg, "kg"),
    massFigure(line.requiredKg, "kg"),
    formatSigned(line.marginOverReserveKg),
    formatSigned(line.marginPercent, 1),
    line.status,
  ]);

/** What is said of a sortie that does not go as planned. */
const trouble = (plan: PlanSnapshot, sortie: SortieSupply): string[] => {
  if (sortie.status !== "short") return [];
  const missing = sortie.lines
    .filter((line) => line.missingKg > 0)
    .map((line) => `${formatMass(line.missingKg)} of ${nameIn(plan.propellants, line.propellantId).toLowerCase()}`);
  const when =
    sortie.firstPossibleAt === null
      ? "It cannot load before the end of the plan."
      : `It could load from ${formatMinute(sortie.firstPossibleAt)}.`;
  return [`${sortie.name} is short by ${missing.join(" and ")} on ${formatDate(sortie.plannedAt)}. ${when}`];
};

const section = (title: string, lines: readonly string[]): string[] =>
  lines.length === 0 ? [] : ["", title, ...lines.map((line) => `  ${line}`)];

export const supplyText = (ledger: LedgerInfo, plan: PlanSnapshot, report: SupplyReport): string => {
  const hinges = report.hinges.map(
    ({ sortieId, flightId }) => `${nameIn(plan.sorties, sortieId)} on ${nameIn(plan.flights, flightId)}`,
  );
  const latest = report.latestDeparture.map(({ flightId, at }) => {
    const until = at === null ? "any slip changes no status" : `${formatMinute(at)} at the latest`;
    return `${nameIn(plan.flights, flightId)}: ${until}`;
  });
  return [
    `${ledger.fileName}, plan case ${plan.planCase.name}, as of ${formatMinute(ledger.asOfAt)}`,
    "",
    textTable(
      columns,
      report.sorties.flatMap((sortie) => rowsOf(plan, sortie)),
    ),
    "",
    report.holds ? "Holds: no sortie is short." : "Does not hold.",
    ...report.sorties.flatMap((sortie) => trouble(plan, sortie)),
    ...section("Hinges on (loss of the flight alone makes the sortie short)", hinges),
    ...section("Latest departure that keeps every status", latest),
    ...section(
      "Findings",
      report.findings.map((finding) => findingSentence(plan, finding)),
    ),
  ].join("\n");
};
