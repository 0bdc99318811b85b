/** The full supply check of the plan case on screen, asked when something that needs it is shown, after the hand has rested. */
import { type Question, useQuestion } from "./use-question.ts";
import { useApp } from "./use-session.ts";

const REST_MS = 400;

export const useSupply = (): Question<"supply.check"> => {
  // The service knows the saved plan alone: of what is only supposed there is no slack.
  const planCaseId = useApp((state) => (state.ledger === null || state.trial !== null ? null : state.planCaseId));
  return useQuestion("supply", "supply.check", planCaseId === null ? null : { planCaseId }, {
    title: "Checking the supply",
    restMs: REST_MS,
  });
};
