/** A rate that was fitted on readings, with what the fit said of itself. Shown, not edited: another fit replaces it. */
import type { MeasuredRate } from "../../../app/entity/measured-rate.ts";
import { percentFromK } from "../../../app/storage/rate-units.ts";
import { formatDate } from "../../format/instant.ts";
import { formatNumber } from "../../format/number.ts";
import { StatedRow } from "../../widgets/form-row.tsx";

type Interval = MeasuredRate["kInterval"];

const withInterval = (text: string, interval: Interval, show: (value: number) => string): string =>
  interval === null ? `${text}, held` : `${text} (95 %: ${show(interval.low)} to ${show(interval.high)})`;

export const MeasuredFields = ({ basis }: { basis: MeasuredRate }) => {
  const percent = (k: number): string => formatNumber(percentFromK(k, 1), 4);
  const kg = (c: number): string => formatNumber(c, 2);
  return (
    <>
      <StatedRow label="Proportional loss">
        <span className="figures">
          {withInterval(`${percent(basis.kPerDay)}\u202f%/day`, basis.kInterval, percent)}
        </span>
      </StatedRow>
      <StatedRow label="Constant loss">
        <span className="figures">{withInterval(`${kg(basis.cKgPerDay)}\u202fkg/day`, basis.cInterval, kg)}</span>
      </StatedRow>
      <StatedRow label="Readings">
        <span className="figures">
          {basis.readings}, {formatDate(basis.firstAt)} to {formatDate(basis.lastAt)}
        </span>
      </StatedRow>
      <StatedRow label="Reduced χ²">
        <span className="figures">
          {basis.reducedChiSquare === null ? "no reading to spare" : formatNumber(basis.reducedChiSquare, 2)}
        </span>
      </StatedRow>
      {basis.flagged > 0 && <p className="form-advice">{basis.flagged} of them beyond 4 σ, counted.</p>}
    </>
  );
};
