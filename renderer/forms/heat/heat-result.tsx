/** What follows from a heat balance: W, kg/day, %/day, how long it holds closed; kept up with every stroke of typing. */
import { useState } from "react";
import { PlanningError } from "../../../app/ground/failure.ts";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import type { HeatBalance } from "../../../app/entity/heat-balance.ts";
import { holdSentence } from "../../../app/storage/hold-sentence.ts";
import { HIGHEST_PRESSURE_KPA } from "../../../app/fluid/saturation.ts";
import { ASSUMED_RELIEF_KPA, type StorageSheet, storageSheet } from "../../../app/storage/storage-sheet.ts";
import { levelNow } from "../../state/tank-now.ts";
import { formatMass } from "../../format/mass.ts";
import { formatNumber, withUnit } from "../../format/number.ts";
import { tankName } from "../../names/entity-words.ts";
import { HeatBar } from "../../heat/heat-bar.tsx";
import { StatedRow } from "../../widgets/form-row.tsx";
import { NumberField } from "../../widgets/number-field.tsx";

interface HeatResultProps {
  readonly balance: HeatBalance;
  readonly plan: PlanSnapshot;
  readonly tankId: string;
  /** Not committed yet. */
  readonly isTyped: boolean;
}

const sheetOr = (make: () => StorageSheet): StorageSheet | string => {
  try {
    return make();
  } catch (error) {
    if (error instanceof PlanningError) return error.message;
    throw error;
  }
};

const percent = (value: number | null, decimals: number): string =>
  value === null ? "–" : withUnit(formatNumber(value, decimals), "%");

const fluxWords = ({ budget }: StorageSheet): string | null => {
  const { bareFlux, installedFluxWPerM2 } = budget;
  if (bareFlux === null || installedFluxWPerM2 === null) return null;
  const part = (watts: number): string => formatNumber(watts, 3);
  return `Bare ${part(bareFlux.total)} W/m² (solid ${part(bareFlux.solid)}, radiation ${part(bareFlux.radiation)}, gas ${part(bareFlux.gas)}); installed ${part(installedFluxWPerM2)} W/m².`;
};

const paysWords = ({ coolersPayAfterDays: days, supplyKgPerW, budget }: StorageSheet): string | null => {
  if (budget.coolerMassKg === 0) return null;
  const assumed = `assumed: ${supplyKgPerW} kg of power supply and radiator per watt`;
  return days === null
    ? "The coolers save nothing here."
    : `The coolers save their own mass in ${formatNumber(days)} days (${assumed}).`;
};

/** `reliefKPa`: null where the pressure asked for is not above that of the tank. */
const holdWords = (sheet: StorageSheet, volumeM3: number | null, reliefKPa: number | null): string => {
  if (reliefKPa === null) return "The pressure to hold to must be above that at which the tank is kept.";
  if (volumeM3 === null) return "State the tank's inner volume to see how long it holds closed.";
  return holdSentence(sheet) ?? "A tank without liquid, or without room above it, has no hold time.";
};

export const HeatResult = ({ balance, plan, tankId, isTyped }: HeatResultProps) => {
  const [reliefKPa, setRelief] = useState(ASSUMED_RELIEF_KPA);
  const tank = plan.tanks.find(({ id }) => id === tankId);
  const now = levelNow(plan, tankId);
  const levelKg = now > 0 ? now : (tank?.maximumFillKg ?? 0);
  const volumeM3 = tank?.volumeM3 ?? null;
  const relief = reliefKPa > balance.pressureKPa ? reliefKPa : null;
  const sheet = sheetOr(() => storageSheet(balance, { levelKg, volumeM3, reliefKPa: relief }));
  if (typeof sheet === "string") {
    return (
      <p className="form-fault" role="alert">
        {sheet}
      </p>
    );
  }
  const { rate, budget } = sheet;
  const words = [fluxWords(sheet), paysWords(sheet), ...budget.cautions].filter((each) => each !== null);
  return (
    <>
      <output className="heat-figures figures" data-typed={isTyped || undefined}>
        <span>{withUnit(formatNumber(budget.netW, 2), "W")}</span>
        <span>{withUnit(formatNumber(rate.kgPerDay, 3), "kg/day")}</span>
        <span>{withUnit(formatNumber(rate.percentPerDay ?? 0, 4), "%/day")}</span>
      </output>
      <section className="heat-result" aria-label="What follows">
        <HeatBar of={tankName(plan, tankId)} budget={budget} isNarrow />
        <StatedRow label={`In 30 days, ${rate.form}, of ${formatMass(levelKg)}`} title={sheet.meaning}>
          <span className="figures">{percent(rate.percentPerMonth, 3)}</span>
        </StatedRow>
        <StatedRow label="of which vented" title="The rest of what boils fills the emptied volume as vapour.">
          <span className="figures">{withUnit(formatNumber(sheet.ventedKgPerDay, 3), "kg/day")}</span>
        </StatedRow>
        {budget.coolerMassKg > 0 && (
          <StatedRow label="With the coolers off">
            <span className="figures">{withUnit(formatNumber(sheet.rateCoolersOff.kgPerDay, 3), "kg/day")}</span>
          </StatedRow>
        )}
        <NumberField
          label="Held closed, up to"
          unit="kPa"
          min={balance.pressureKPa}
          max={HIGHEST_PRESSURE_KPA}
          isMinOpen
          value={reliefKPa}
          onCommit={setRelief}
        />
        <p className="form-advice">{holdWords(sheet, volumeM3, relief)}</p>
        {words.map((sentence) => (
          <p key={sentence} className="form-advice">
            {sentence}
          </p>
        ))}
      </section>
    </>
  );
};
