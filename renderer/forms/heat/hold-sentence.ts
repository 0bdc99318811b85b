/** How long a closed tank holds, in a sentence with its caution. */
import type { HoldTime } from "../../../app/storage/lock-up.ts";
import type { StorageSheet } from "../../../app/storage/storage-sheet.ts";
import { formatNumber } from "../../format/number.ts";

const ends = {
  relief: "it reaches that pressure",
  "liquid-full": "it is full of liquid",
  dry: "it has boiled dry",
} as const;

const holdWords = (hold: HoldTime): string => {
  if (hold.days === null || hold.cautiousDays === null) return "no heat comes in: it holds";
  const { shortest, longest } = hold.cautiousDays;
  const early = hold.outcome === "relief" ? "" : ` at ${formatNumber(hold.endKPa)} kPa already`;
  return `${ends[hold.outcome]}${early} after ${formatNumber(hold.days, 1)} days by the model; plan on ${formatNumber(shortest, 1)} to ${formatNumber(longest, 1)} days`;
};

/** `reliefKPa`: null where the pressure asked for is not above that of the tank. */
export const holdSentence = (sheet: StorageSheet, volumeM3: number | null, reliefKPa: number | null): string => {
  if (reliefKPa === null) return "The pressure to hold to must be above that at which the tank is kept.";
  if (volumeM3 === null) return "State the tank's inner volume to see how long it holds closed.";
  const { hold, holdCoolersOff, budget } = sheet;
  if (hold === null || holdCoolersOff === null)
    return "A tank without liquid, or without room above it, has no hold time.";
  const words =
    budget.coolerMassKg === 0
      ? `Closed, without a cooler: ${holdWords(hold)}.`
      : `Closed, with the coolers as described (${formatNumber(budget.liftW, 1)} W of lift): ${holdWords(hold)}. With no cooler running: ${holdWords(holdCoolersOff)}.`;
  return `${words} ${hold.caution}`;
};
