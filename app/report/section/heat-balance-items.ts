/** Tanks whose loss follows from a heat balance: what is lost, how long they hold closed, and what to be careful with. */
import { levelAt } from "../../forecast/curve.ts";
import { formatMass } from "../../format/mass.ts";
import { formatNumber, formatPercent } from "../../format/number.ts";
import { holdSentence } from "../../storage/hold-sentence.ts";
import { ASSUMED_RELIEF_KPA } from "../../storage/storage-sheet.ts";
import { tankStorage } from "../../storage/tank-storage.ts";
import type { ReportContext } from "../context.ts";
import { tankName } from "../names.ts";

/** At the as-of instant; up to the assumed pressure, where the tank is kept below it. */
export const heatBalanceItems = ({ main }: ReportContext): readonly string[] => {
  const { plan } = main.view;
  return plan.tanks.flatMap((tank): readonly string[] => {
    const segments = main.forecast.find(({ tankId }) => tankId === tank.id)?.segments ?? [];
    const levelKg = levelAt(segments, plan.asOfAt);
    const storageAt = (reliefKPa: number | null) =>
      tankStorage(tank, null, plan.lossPeriods, levelKg, plan.asOfAt, reliefKPa);
    const period = storageAt(null).period;
    if (period === null || period.basis.kind !== "heat balance") return [];
    const isBelow = period.basis.pressureKPa < ASSUMED_RELIEF_KPA;
    const { rate, sheet } = storageAt(isBelow ? ASSUMED_RELIEF_KPA : null);
    const share =
      rate.percentPerMonth === null
        ? ""
        : `, ${formatPercent(rate.percentPerMonth, 3)} of ${formatMass(levelKg)} in 30 days (${rate.form})`;
    const hold = sheet === null ? null : holdSentence(sheet);
    return [
      [
        `${tankName(plan, tank.id)}: ${formatNumber(rate.kgPerDay, 3)} kg/day by its heat balance${share}.`,
        ...(hold === null ? [] : [`Held up to ${ASSUMED_RELIEF_KPA} kPa (assumed). ${hold}`]),
        ...(sheet?.budget.cautions ?? []),
      ].join(" "),
    ];
  });
};
