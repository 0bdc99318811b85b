/** Of the flights that a sortie hangs on, the one with the least room: for a sentence that names one. */
import type { SupplyAnswer } from "./answer.ts";

/** The flight that may slip least with a sortie's status kept; null: any may slip. */
export const tightestSlack = (
  answer: SupplyAnswer | null,
  sortieId: string,
): { readonly flightId: string; readonly slackDays: number } | null => {
  let tightest: { flightId: string; slackDays: number } | null = null;
  for (const slack of answer?.slack ?? []) {
    if (slack.sortieId !== sortieId || slack.slackDays === "any") continue;
    if (tightest === null || slack.slackDays < tightest.slackDays)
      tightest = { flightId: slack.flightId, slackDays: slack.slackDays };
  }
  return tightest;
};
