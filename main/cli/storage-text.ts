/** What a tank loses and why, as text. */
import { formatMass } from "../../app/format/mass.ts";
import { formatNumber, formatPercent } from "../../app/format/number.ts";
import { holdSentence } from "../../app/storage/hold-sentence.ts";
import { lossFormMeaning, type RateInUnits } from "../../app/storage/rate-units.ts";
import type { StorageSheet } from "../../app/storage/storage-sheet.ts";
import type { TankStorage } from "../../app/storage/tank-storage.ts";
import { textTable } from "./text-table.ts";

const rateWords = (rate: RateInUnits): string => {
  const parts = [`${formatNumber(rate.kgPerDay, 3)} kg/day`];
  if (rate.percentPerDay !== null) parts.push(`${formatPercent(rate.percentPerDay, 4)} per day`);
  if (rate.percentPerMonth !== null) parts.push(`${formatPercent(rate.percentPerMonth, 3)} in 30 days (${rate.form})`);
  if (rate.heatW !== null) parts.push(`${formatNumber(rate.heatW, 2)} W`);
  return parts.join(", ");
};

const sheetLines = (sheet: StorageSheet): string[] => {
  const { budget } = sheet;
  const hold = holdSentence(sheet);
  const rows = [
    ...budget.lines.map((line) => [line.label, formatNumber(line.heatW, 2), line.note]),
    ["described", formatNumber(budget.describedW, 2), ""],
    [`times environment ${formatNumber(budget.environmentFactor, 2)}`, formatNumber(budget.heatInW, 2), ""],
    ["lifted by coolers", formatNumber(-budget.liftW, 2), `${formatNumber(budget.coolerPowerW)} W electric`],
    ["net", formatNumber(budget.netW, 2), ""],
  ];
  const pays =
    sheet.coolersPayAfterDays === null
      ? []
      : [
          `The coolers pay for their mass after ${formatNumber(sheet.coolersPayAfterDays)} days (assumed: ${sheet.supplyKgPerW} kg of power supply and radiator per watt).`,
        ];
  return [
    textTable(
      [
        { title: "Heat", align: "start" },
        { title: "W", align: "end" },
        { title: "Note", align: "start" },
      ],
      rows,
    ),
    `Vented: ${formatNumber(sheet.ventedKgPerDay, 3)} kg/day; the rest of what boils fills the emptied volume.`,
    ...(budget.coolerMassKg > 0 ? [`Coolers off: ${rateWords(sheet.rateCoolersOff)}.`] : []),
    ...pays,
    ...(hold === null ? [] : [hold]),
    ...budget.cautions,
  ];
};

export const storageText = (tankName: string, storage: TankStorage): string =>
  [
    `${tankName}: ${formatMass(storage.levelKg, "kg")}, ${storage.period === null ? "no loss period in force" : storage.period.reason}`,
    rateWords(storage.rate),
    lossFormMeaning[storage.rate.form],
    ...(storage.sheet === null ? [] : sheetLines(storage.sheet)),
  ].join("\n");
