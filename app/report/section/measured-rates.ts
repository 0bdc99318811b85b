/** What the gauge readings of the period say of each tank's loss, beside what the plan rests on. */
import type { TankFit } from "../../losses/fit/fit-tank.ts";
import { figureColumn, instant, mass, massColumn, nothing, number, text, wordColumn } from "../cell.ts";
import type { ReportContext } from "../context.ts";
import type { Block, Cell } from "../model.ts";
import { nameIn } from "../../words/named.ts";

const DAY_COLUMNS = ["Measured", "95 % from", "to", "In the plan"];

/** kg/day at the mean level, so that rates of every kind stand in one unit. */
const rateCells = (fit: TankFit): readonly Cell[] =>
  [
    fit.lossKgPerDay,
    fit.lossInterval.low,
    fit.lossInterval.high,
    fit.inForce.kPerDay * fit.meanLevelKg + fit.inForce.cKgPerDay,
  ].map((kgPerDay) => number(kgPerDay, 2));

export const measuredBlocks = ({ fits, main }: ReportContext): readonly Block[] => {
  const nameOf = (tankId: string): string => nameIn(main.view.plan.tanks, tankId);
  const made = fits.flatMap(({ tankId, fit }) => (fit === null ? [] : [{ tankId, fit }]));
  const words = fits.flatMap(({ tankId, fit, cannot }) =>
    (fit === null ? [cannot ?? ""] : fit.messages).map((sentence) => `${nameOf(tankId)}: ${sentence}`),
  );
  return [
    {
      kind: "table",
      id: "losses-measured",
      caption:
        "Loss rates fitted on the gauge readings of the period, with their 95 % interval, beside the rate in force in the plan at the same level.",
      columns: [
        wordColumn("Tank", 1.5),
        figureColumn("Readings", null, 1.1),
        wordColumn("From", 1.1),
        wordColumn("Until", 1.1),
        massColumn("At level", 1),
        ...DAY_COLUMNS.map((title) => figureColumn(title, "kg/day", 1.1)),
        figureColumn("Reduced χ²", null, 0.9),
      ],
      rows: made.map(({ tankId, fit }) => [
        text(nameOf(tankId)),
        number(fit.readings.length, 0),
        instant(fit.firstAt),
        instant(fit.lastAt),
        mass(fit.meanLevelKg),
        ...rateCells(fit),
        fit.reducedChiSquare === null ? nothing : number(fit.reducedChiSquare, 2),
      ]),
    },
    { kind: "list", items: words },
  ];
};
