/** How long a closed tank holds, what that assumes about its coolers, and the caution: one wording for screen, paper and command line. */
import { formatNumber } from "../format/number.ts";
import type { HoldTime } from "./lock-up.ts";
import type { StorageSheet } from "./storage-sheet.ts";

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

/** Both with the coolers as they are described and with none running; null: the sheet has no hold time. */
export const holdSentence = ({ hold, holdCoolersOff, budget }: StorageSheet): string | null => {
  if (hold === null || holdCoolersOff === null) return null;
  const words =
    budget.coolerMassKg === 0
      ? `Closed, without a cooler: ${holdWords(hold)}.`
      : `Closed, with the coolers as described (${formatNumber(budget.liftW, 1)} W of lift): ${holdWords(hold)}. With no cooler running: ${holdWords(holdCoolersOff)}.`;
  return `${words} ${hold.caution}`;
};
