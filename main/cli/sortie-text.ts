/** A sortie sheet as text: propellants, legs, checks. */
import { formatMass, massFigure } from "../../app/format/mass.ts";
import { formatNumber } from "../../app/format/number.ts";
import { checkSentence } from "../../app/sortie/check-sentence.ts";
import type { SortieSheet } from "../../app/sortie/sheet.ts";
import { stageSentence } from "../../app/sortie/stage-words.ts";
import { type TextColumn, textTable } from "./text-table.ts";

const figure = (title: string): TextColumn => ({ title, align: "end" });
const words = (title: string): TextColumn => ({ title, align: "start" });

const propellantColumns = [
  words("Propellant"),
  ...["Load kg", "Burned", "Lost", "Crew, power", "Residual", "Mixture", "Reserve", "Home"].map(figure),
];

const legColumns = (names: readonly string[]): TextColumn[] => [
  figure("No."),
  words("Leg"),
  figure("Before kg"),
  figure("After kg"),
  figure("Δv m/s"),
  ...names.map((name) => figure(`${name} kg`)),
  figure("Burn s"),
];

/** `title` heads the sheet; `nameOf` gives a propellant's name by its id. */
export const sortieText = (title: string, sheet: SortieSheet, nameOf: (propellantId: string) => string): string => {
  const names = sheet.lines.map(({ propellantId }) => nameOf(propellantId));
  const lines = sheet.lines.map((line, p) => [
    names[p] ?? "",
    ...[
      line.loadKg,
      line.burnedKg,
      line.lostKg,
      line.consumedKg,
      line.residualKg,
      line.allowanceKg,
      line.reserveKg,
      line.returnKg,
    ].map((kg) => massFigure(kg, "kg")),
  ]);
  const legs = sheet.legs.map((leg) => [
    String(leg.stepIndex + 1),
    leg.stage === null ? leg.name : `${leg.name} (${leg.stage})`,
    massFigure(leg.massBeforeKg, "kg"),
    massFigure(leg.massAfterKg, "kg"),
    leg.ispS === null ? "" : formatNumber(leg.deltaVMPerS),
    ...sheet.lines.map((_, p) => massFigure((leg.stockBeforeKg[p] ?? 0) - (leg.stockAfterKg[p] ?? 0), "kg")),
    leg.burnSeconds > 0 ? formatNumber(leg.burnSeconds) : "",
  ]);
  const say = (isMet: boolean): string[] =>
    sheet.checks.filter((check) => check.isMet === isMet).map((check) => `  ${checkSentence(check, nameOf)}`);
  return [
    title,
    `Load ${formatMass(sheet.loadKg)}, ${formatMass(sheet.startMassKg)} at departure, ${formatMass(sheet.endMassKg)} at the end; ` +
      `${formatNumber(sheet.totalDeltaVMPerS)} m/s, ${formatNumber(sheet.ignitions)} ignitions, ${formatNumber(sheet.burnSeconds)} s of burn.`,
    "",
    textTable(propellantColumns, lines),
    ...(sheet.stages.length < 2 ? [] : ["", ...sheet.stages.map((stage) => stageSentence(stage))]),
    "",
    textTable(legColumns(names), legs),
    "",
    ...(sheet.findings.length === 0 ? ["No findings."] : ["Findings", ...say(false)]),
    "",
    "Checks that hold",
    ...say(true),
  ].join("\n");
};
