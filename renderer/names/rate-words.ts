/** A loss rate in a few words: "0.40 %/day", "12 kg/day", both. */
import type { LossRate } from "../../app/storage/loss-rate.ts";
import { percentFromK } from "../../app/storage/rate-units.ts";
import { formatNumber, withUnit } from "../format/number.ts";

export const rateWords = ({ kPerDay, cKgPerDay }: LossRate): string => {
  const parts = [
    kPerDay > 0 ? withUnit(formatNumber(percentFromK(kPerDay, 1), 3), "%/day") : "",
    cKgPerDay > 0 ? withUnit(formatNumber(cKgPerDay, 1), "kg/day") : "",
  ].filter((part) => part !== "");
  return parts.length === 0 ? "no loss" : parts.join(" and ");
};
