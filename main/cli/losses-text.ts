/** The loss statement and a fit as text. */
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { formatNumber, formatSigned } from "../../app/format/number.ts";
import { formatMinute } from "../../app/format/time.ts";
import type { FitResult, Interval } from "../../app/losses/fit/fit-result.ts";
import { bookReadingAdvice, bookReadings } from "../../app/losses/book-reading.ts";
import type { LossBook, PeriodComparison } from "../../app/losses/loss-book.ts";
import type { StatementSums } from "../../app/ledger/statement-sums.ts";
import { type TextColumn, textTable } from "./text-table.ts";
import { nameIn } from "../../app/words/named.ts";

const figure = (title: string): TextColumn => ({ title, align: "end" });
const words = (title: string): TextColumn => ({ title, align: "start" });

const columns = [
  words("Month"),
  ...["Opening", "Received", "Drawn", "Boil-off", "Handover", "Vented", "Unaccounted", "Closing"].map(figure),
  ...["Booked loss", "predicted", "difference", "in σ"].map(figure),
];

/** To the gram, as the books are. */
const kg = (grams: number): string => formatNumber(grams / 1000, 3);

const nameOf = (rows: readonly { readonly id: string; readonly name: string }[], id: string): string =>
  nameIn(rows, id);

const bookCells = (line: StatementSums): string[] =>
  [
    line.openingGrams,
    line.receivedGrams,
    line.drawnGrams,
    line.boilOffGrams,
    line.handoverLossGrams,
    line.ventedGrams,
    line.unaccountedGrams,
    line.closingGrams,
  ].map(kg);

const comparisonCells = (row: PeriodComparison | undefined): string[] =>
  row === undefined
    ? ["–", "–", "–", "–"]
    : [
        formatNumber(row.bookedKg, 1),
        formatNumber(row.predictedKg, 1),
        formatSigned(row.differenceKg, 1),
        row.differenceInSigma === null ? "–" : formatSigned(row.differenceInSigma, 1),
      ];

/** Both readings of the book. `labelOf`: the name of the month that begins at an instant. */
export const statementText = (plan: PlanSnapshot, book: LossBook, labelOf: (fromAt: number) => string): string => {
  const tables = book.statements.flatMap((statement) => {
    const isOurs = (row: { readonly depotId: string; readonly propellantId: string }): boolean =>
      row.depotId === statement.depotId && row.propellantId === statement.propellantId;
    const names = `${nameOf(plan.depots, statement.depotId)}, ${nameOf(plan.propellants, statement.propellantId).toLowerCase()}`;
    const booked = statement.lines.map((line) => {
      const compared = book.comparisons.find((row) => isOurs(row) && row.fromAt === line.fromAt);
      return [labelOf(line.fromAt), ...bookCells(line), ...comparisonCells(compared)];
    });
    const total = ["All", ...bookCells(statement.total), "", "", "", ""];
    const happened = book.happened?.find(isOurs);
    const happenedTable =
      happened === undefined
        ? []
        : [
            `${names}, as happened, kg\n${textTable(columns.slice(0, total.length - 4), [
              ...happened.lines.map((line) => [labelOf(line.fromAt), ...bookCells(line)]),
              ["All", ...bookCells(happened.total)],
            ])}`,
          ];
    return [...happenedTable, `${names}, as booked, kg\n${textTable(columns, [...booked, total])}`];
  });
  return [
    ...tables,
    "Opening + received − drawn − boil-off − handover − vented − unaccounted = closing, to the gram.",
    ...bookReadings.map((reading) => bookReadingAdvice[reading]),
    "Booked loss: boil-off and unaccounted; it covers the time between the levels that were stated, and the prediction the same time.",
  ].join("\n\n");
};

const between = (interval: Interval | null, scale: number, decimals: number): string =>
  interval === null
    ? "held"
    : `95 %: ${formatNumber(interval.low * scale, decimals)} to ${formatNumber(interval.high * scale, decimals)}`;

export const fitText = (tankName: string, fit: FitResult): string => {
  const rows = fit.readings.map((reading) => [
    formatMinute(reading.at),
    formatNumber(reading.massKg, 1),
    formatNumber(reading.sigmaKg, 1),
    formatNumber(reading.fittedKg, 1),
    formatSigned(reading.residualKg, 1),
    `${formatSigned(reading.residualInSigma, 1)}${reading.isFlagged ? "  flagged" : ""}`,
  ]);
  const chi =
    fit.reducedChiSquare === null
      ? "no reading to spare"
      : `${formatNumber(fit.reducedChiSquare, 2)} with ${fit.degreesOfFreedom} degrees of freedom`;
  return [
    `${tankName}: ${fit.fitted} fitted on ${fit.readings.length} readings, ${formatMinute(fit.firstAt)} to ${formatMinute(fit.lastAt)}`,
    "",
    `k     ${formatNumber(fit.kPerDay * 100, 4)} % per day (exponent)  ${between(fit.kInterval, 100, 4)}`,
    `c     ${formatNumber(fit.cKgPerDay, 3)} kg per day  ${between(fit.cInterval, 1, 3)}`,
    `Loss  ${formatNumber(fit.lossKgPerDay, 2)} kg per day at ${formatNumber(fit.meanLevelKg)} kg  ${between(fit.lossInterval, 1, 2)}`,
    `Reduced χ²  ${chi}`,
    "",
    textTable(
      ["Instant", "Reading kg", "σ kg", "Fitted kg", "Residual kg", "in σ"].map((title, i) =>
        i === 0 ? words(title) : figure(title),
      ),
      rows,
    ),
    ...(fit.messages.length === 0 ? [] : ["", ...fit.messages]),
    ...(fit.cannotAdoptBecause === null ? [] : ["", `It cannot be adopted: ${fit.cannotAdoptBecause}`]),
  ].join("\n");
};
