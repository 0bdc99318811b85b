/** What a fit found: rate with its interval in the planner's units, how well it holds, what it cannot tell. */
import type { Interval } from "../../app/losses/fit/fit-result.ts";
import type { TankFit } from "../../app/losses/fit/fit-tank.ts";
import { percentFromK } from "../../app/storage/rate-units.ts";
import { formatMass } from "../format/mass.ts";
import { formatNumber, formatPercent } from "../format/number.ts";

const between = (interval: Interval | null, show: (value: number) => string): string =>
  interval === null ? "held" : `${formatPercent(95, 0)}: ${show(interval.low)} to ${show(interval.high)}`;

/** k may come out below 0; then it is told as a gain. */
const percent = (k: number): string => formatNumber(percentFromK(k, 1), 4);
const kg = (value: number): string => formatNumber(value, 2);

/** "sound: 0.6 to 1.5"; outside of it said first. */
const soundWords = (chiSquare: number | null, { low, high }: Interval): string => {
  const isFar = chiSquare !== null && (chiSquare < low || chiSquare > high);
  return `${isFar ? "far from 1; " : ""}sound: ${formatNumber(low, 2)} to ${formatNumber(high, 2)}`;
};

export const FitFigures = ({ fit }: { fit: TankFit }) => {
  const range = fit.reducedChiSquareRange;
  const figures: readonly (readonly [name: string, value: string, line: string])[] = [
    ["Proportional loss", `${percent(fit.kPerDay)}\u202f%/day`, between(fit.kInterval, percent)],
    ["Constant loss", `${kg(fit.cKgPerDay)}\u202fkg/day`, between(fit.cInterval, kg)],
    [`Lost at ${formatMass(fit.meanLevelKg)}`, `${kg(fit.lossKgPerDay)}\u202fkg/day`, between(fit.lossInterval, kg)],
    [
      "In the plan, there",
      `${kg(fit.inForce.kPerDay * fit.meanLevelKg + fit.inForce.cKgPerDay)}\u202fkg/day`,
      fit.inForce.reason,
    ],
    [
      "Reduced χ²",
      fit.reducedChiSquare === null ? "–" : formatNumber(fit.reducedChiSquare, 2),
      range === null ? "no reading to spare" : soundWords(fit.reducedChiSquare, range),
    ],
  ];
  return (
    <>
      <dl className="loss-figures">
        {figures.map(([name, value, line]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd className="figures">{value}</dd>
            <dd className="loss-figure-line figures">{line}</dd>
          </div>
        ))}
      </dl>
      {fit.messages.length > 0 && (
        <ul className="loss-messages">
          {fit.messages.map((message) => (
            <li key={message}>{message}</li>
          ))}
        </ul>
      )}
    </>
  );
};
