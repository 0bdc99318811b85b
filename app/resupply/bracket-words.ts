/** How far a search has come, in words: the best plan so far, and what is ruled out. */
import { formatNumber } from "../format/number.ts";
import type { ResupplyBracket } from "./answer.ts";

/** A cost to the hundredth, rounded to the side on which the claim stays true. */
export const costText = (cost: number, round: (value: number) => number): string => {
  const rounded = round(cost * 100) / 100;
  return formatNumber(rounded, Number.isInteger(rounded) ? 0 : 2);
};

/** "14 flights so far; fewer than 12 are impossible." Empty where nothing is known yet. */
export const bracketWords = (measure: "flights" | "cost", { lower, upper }: ResupplyBracket): string => {
  if (lower === null && upper === null) return "Not every sortie can be held: looking for what can.";
  const isFlights = measure === "flights";
  const best =
    upper === null
      ? "No plan so far"
      : isFlights
        ? `${formatNumber(upper)} ${upper === 1 ? "flight" : "flights"} so far`
        : `A cost of ${costText(upper, Math.ceil)} so far`;
  // A number of flights is whole: what is not ruled out begins at the next one.
  const least = lower === null ? 0 : isFlights ? Math.ceil(lower - 1e-9) : lower;
  if (least <= 0) return upper === null ? "" : `${best}.`;
  if (upper !== null && upper <= least) return `${best}; ${isFlights ? "fewer are" : "less is"} impossible.`;
  if (isFlights && least === 1) return `${best}; it cannot be done with none.`;
  return isFlights
    ? `${best}; fewer than ${formatNumber(least)} are impossible.`
    : `${best}; less than ${costText(least, Math.floor)} is impossible.`;
};
