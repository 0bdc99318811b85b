/** What a plan takes on average over the runs, in words: masses that are lost, and flights that depart. */
import { type MassUnit, unitOf } from "../format/mass.ts";
import { formatNumber, NARROW_SPACE, withUnit } from "../format/number.ts";
import type { Estimate, RiskAnswer } from "./answer.ts";

/** As many decimals as the standard error bears: its first digit; at least `least`, at most 3. */
const decimalsFor = (standardError: number, least: number): number =>
  standardError > 0 ? Math.min(3, Math.max(least, Math.ceil(-Math.log10(standardError * 1.05)))) : least;

const meanText = ({ value, standardError }: Estimate, least: number): string => {
  const decimals = decimalsFor(standardError, least);
  return `${formatNumber(value, decimals)}${NARROW_SPACE}±${NARROW_SPACE}${formatNumber(standardError, decimals)}`;
};

/** "9.44 ± 0.01 t"; what cannot be told apart is a dash. */
export const meanMassText = (mass: Estimate | null, choice: MassUnit): string => {
  if (mass === null) return "–";
  const unit = unitOf(mass.value, choice);
  const by = unit === "t" ? 1000 : 1;
  return withUnit(
    meanText({ value: mass.value / by, standardError: mass.standardError / by }, unit === "t" ? 2 : 0),
    unit,
  );
};

/** "On average 10.81 ± 0.01 flights depart before the forecast ends; 0.34 ± 0.01 of them are lost." */
export const flightsSentence = ({
  flightsUsed,
  flightsLost,
}: Pick<RiskAnswer, "flightsUsed" | "flightsLost">): string =>
  `On average ${meanText(flightsUsed, 1)} flights depart before the forecast ends; ${meanText(flightsLost, 1)} of them are lost.`;
