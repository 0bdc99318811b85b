/** The books of every month by depot and propellant, to the gram; booked losses beside predicted; loss by cause as bars; rates measured. */
import type { PlanSnapshot } from "../../entity/plan.ts";
import { DAY_MS } from "../../ground/quantity.ts";
import { type BookReading, bookReadingAdvice } from "../../losses/book-reading.ts";
import type { PeriodComparison } from "../../losses/loss-book.ts";
import { monthLabel } from "../../losses/months.ts";
import { lossCauses, type Statement } from "../../losses/statement.ts";
import type { StatementSums } from "../../ledger/statement-sums.ts";
import { figureColumn, mass, massColumn, nothing, number, text, wordColumn } from "../cell.ts";
import type { ReportContext } from "../context.ts";
import type { Block, Cell } from "../model.ts";
import { paperLook } from "../../picture/look.ts";
import { chartBlock } from "../chart-block.ts";
import { lossPicture } from "../../picture/loss-picture.ts";
import { propellantInk } from "../../picture/ink.ts";
import { measuredBlocks } from "./measured-rates.ts";
import { depotName, propellantName } from "../names.ts";

const grams = (value: number): Cell => ({ kind: "grams", grams: value });

const bookCells = (line: StatementSums): readonly Cell[] =>
  [
    line.openingGrams,
    line.receivedGrams,
    line.drawnGrams,
    line.boilOffGrams,
    line.handoverLossGrams,
    line.ventedGrams,
    line.unaccountedGrams,
    line.closingGrams,
  ].map(grams);

const bookColumns = ["Opening", "Received", "Drawn", "Boil-off", "Handover", "Vented", "Unaccounted", "Closing"];

const hasLosses = ({ lines }: Statement): boolean =>
  lines.some((line) => lossCauses.some((cause) => line[cause] !== 0));

const namesOf = (plan: PlanSnapshot, { depotId, propellantId }: Statement): string =>
  `${depotName(plan, depotId)}, ${propellantName(plan, propellantId).toLowerCase()}`;

const causeChart = (plan: PlanSnapshot, statement: Statement): Block =>
  chartBlock({
    id: `losses-chart-${statement.depotId}-${statement.propellantId}`,
    caption: `${namesOf(plan, statement)}: loss by cause, as happened`,
    description:
      "A bar a month, stacked by cause; what was found again hangs below the line. The table has the figures.",
    picture: lossPicture(
      {
        months: statement.lines,
        labelOf: (at) => monthLabel(at, null),
        ink: propellantInk(plan.propellants.find(({ id }) => id === statement.propellantId)?.position ?? 0),
      },
      { width: 500, height: 118 },
      paperLook,
    ),
  });

/** Days that the bookings of a month cover, of all its tanks together. */
const coveredDays = ({ tanks }: PeriodComparison): number =>
  tanks.length === 0
    ? 0
    : tanks.reduce((sum, tank) => sum + (tank.coversUntilAt - tank.coversFromAt) / DAY_MS, 0) / tanks.length;

const rateCell = (kg: number, days: number): Cell => (days > 0 ? number(kg / days, 2) : nothing);

export const lossBlocks = (context: ReportContext): readonly Block[] => {
  const { losses, main } = context;
  const { plan } = main.view;
  if (losses === null || losses.statements.length === 0) {
    return [{ kind: "paragraph", text: "Nothing is recorded in the period of this report." }];
  }
  const tableOf = (statement: Statement, reading: BookReading): Block => ({
    kind: "table",
    id: `losses-${reading === "as happened" ? "happened-" : ""}${statement.depotId}-${statement.propellantId}`,
    caption: `${namesOf(plan, statement)}, ${reading}: opening + received − drawn − boil-off − handover − vented − unaccounted = closing. Rounded: a last digit may not add up; the workbook has every gram.`,
    columns: [
      wordColumn("Month", 1),
      ...bookColumns.map((title) => massColumn(title, title === "Unaccounted" ? 1.5 : 1.25)),
    ],
    rows: [
      ...statement.lines.map((line) => [text(monthLabel(line.fromAt, null)), ...bookCells(line)]),
      [text("All"), ...bookCells(statement.total)],
    ],
    marks: [{ row: statement.lines.length, as: "total" }],
  });
  const happened = (losses.happened ?? []).flatMap((statement): readonly Block[] => {
    const table = tableOf(statement, "as happened");
    return hasLosses(statement) ? [table, causeChart(plan, statement)] : [table];
  });
  const booked = losses.statements.map((statement) => tableOf(statement, "as booked"));
  return [
    { kind: "paragraph", text: bookReadingAdvice["as happened"] },
    ...happened,
    { kind: "paragraph", text: bookReadingAdvice["as booked"] },
    ...booked,
    {
      kind: "table",
      id: "losses-compared",
      caption:
        "Booked beside predicted, between the levels that were stated; booked is boil-off and unaccounted together, σ that of the gauge at both ends.",
      columns: [
        wordColumn("Depot", 1.2),
        wordColumn("Propellant", 1.2),
        wordColumn("Month", 1),
        massColumn("Booked", 1),
        massColumn("Predicted", 1),
        massColumn("Difference", 1),
        figureColumn("Difference", "σ", 1),
        figureColumn("Booked", "kg/day", 1),
        figureColumn("Predicted", "kg/day", 1),
      ],
      rows: losses.comparisons.map((row): readonly Cell[] => [
        text(depotName(plan, row.depotId)),
        text(propellantName(plan, row.propellantId)),
        text(monthLabel(row.fromAt, null)),
        mass(row.bookedKg),
        mass(row.predictedKg),
        mass(row.differenceKg),
        row.differenceInSigma === null ? nothing : number(row.differenceInSigma, 1),
        rateCell(row.bookedKg, coveredDays(row)),
        rateCell(row.predictedKg, coveredDays(row)),
      ]),
    },
    ...measuredBlocks(context),
  ];
};
