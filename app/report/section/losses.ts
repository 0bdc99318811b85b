/** The books of every month by depot and propellant, to the gram; booked losses beside predicted; the last gauge-fitted rates. */
import { monthLabel } from "../../losses/months.ts";
import type { StatementSums } from "../../losses/statement-sums.ts";
import { figureColumn, mass, massColumn, nothing, number, text, wordColumn } from "../cell.ts";
import type { ReportContext } from "../context.ts";
import type { Block, Cell } from "../model.ts";
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

export const lossBlocks = (context: ReportContext): readonly Block[] => {
  const { losses, main } = context;
  const { plan } = main.view;
  if (losses === null || losses.statements.length === 0) {
    return [{ kind: "paragraph", text: "Nothing is recorded in the period of this report." }];
  }
  const statements = losses.statements.map((statement): Block => {
    const lines = statement.lines.map((line) => [text(monthLabel(line.fromAt, null)), ...bookCells(line)]);
    return {
      kind: "table",
      id: `losses-${statement.depotId}-${statement.propellantId}`,
      caption: `${depotName(plan, statement.depotId)}, ${propellantName(plan, statement.propellantId).toLowerCase()}: opening + received − drawn − boil-off − handover − vented − unaccounted = closing, to the gram.`,
      columns: [wordColumn("Month", 1), ...bookColumns.map((title) => massColumn(title, 1.25))],
      rows: [...lines, [text("All"), ...bookCells(statement.total)]],
    };
  });
  return [
    ...statements,
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
      ],
      rows: losses.comparisons.map((row): readonly Cell[] => [
        text(depotName(plan, row.depotId)),
        text(propellantName(plan, row.propellantId)),
        text(monthLabel(row.fromAt, null)),
        mass(row.bookedKg),
        mass(row.predictedKg),
        mass(row.differenceKg),
        row.differenceInSigma === null ? nothing : number(row.differenceInSigma, 1),
      ]),
    },
  ];
};
