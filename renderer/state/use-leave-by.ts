/** Latest and earliest departures of the plan case on screen, worked out anew once the hand has rested after a change. */
import { type Question, useQuestion } from "./use-question.ts";
import { useApp } from "./use-session.ts";

const REST_MS = 800;

export const useLeaveBy = (): Question<"resupply.leaveBy"> => {
  const planCaseId = useApp((state) => (state.phase === "ready" ? state.planCaseId : null));
  return useQuestion("leave by", "resupply.leaveBy", planCaseId === null ? null : { planCaseId }, {
    title: "Latest departures",
    restMs: REST_MS,
  });
};
