/** How long a closed tank holds, in a sentence with its caution. */
import type { StorageSheet } from "../../../../app/storage/storage-sheet.ts";
import { formatNumber } from "../../../format/number.ts";

const ends = {
  relief: "it reaches that pressure",
  "liquid-full": "it is full of liquid",
  dry: "it has boiled dry",
} as const;

/** `reliefKPa`: null where the pressure asked for is not above that of the tank. */
export const holdSentence = (sheet: StorageSheet, volumeM3: number | null, reliefKPa: number | null): string => {
  if (reliefKPa === null) return "The pressure to hold to must be above that at which the tank is kept.";
  if (volumeM3 === null) return "State the tank's inner volume to see how long it holds closed.";
  const { hold } = sheet;
  if (hold === null) return "A tank without liquid, or without room above it, has no hold time.";
  if (hold.days === null || hold.cautiousDays === null) return "Closed, no heat comes in: it holds.";
  const { shortest, longest } = hold.cautiousDays;
  const early = hold.outcome === "relief" ? "" : ` at ${formatNumber(hold.endKPa)} kPa already`;
  return `Closed, ${ends[hold.outcome]}${early} after ${formatNumber(hold.days, 1)} days by the model. Plan on ${formatNumber(shortest, 1)} to ${formatNumber(longest, 1)} days. ${hold.caution}`;
};
