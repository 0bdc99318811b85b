/**
 * The risk of the plan case on screen. After every change a quick answer comes by itself; a long run is asked for, and
 * holds for the state of the plan that it was asked of.
 */
import type { RiskAnswer } from "../../app/risk/answer.ts";
import type { Failure } from "../../app/ground/failure.ts";
import type { Run } from "./run.ts";
import { useQuestion } from "./use-question.ts";
import { useApp } from "./use-session.ts";
import { QUICK_RUNS, setRiskChoices, useRiskChoices } from "./risk-choices.ts";

/** After an edit, until the quick answer is asked for. */
const REST_MS = 600;

export interface ShownRisk {
  /** The best there is; null: none yet. */
  readonly answer: RiskAnswer | null;
  /** Whether it is of the plan as it is now; else it is shown in grey until the new one is there. */
  readonly isCurrent: boolean;
  /** The long run under way; null: none is. */
  readonly run: Run | null;
  readonly failure: Failure | null;
  /** Asks for a long run of the plan as it is now: so many runs, or until the error is so small. */
  readonly start: (untilError: number | null) => void;
  readonly again: () => void;
}

export const useRisk = (): ShownRisk => {
  const { seed, runs, error, asked } = useRiskChoices();
  const planCaseId = useApp((state) => (state.phase === "ready" ? state.planCaseId : null));
  const isTrial = useApp((state) => state.trial !== null);
  const of = useApp(
    (state) => `${state.ledger?.path ?? ""} ${String(state.ledger?.revision)} ${String(state.planCaseId)}`,
  );
  const quick = useQuestion(
    "risk quick",
    "risk.run",
    planCaseId === null ? null : { planCaseId, seed, runs: QUICK_RUNS, untilError: null, detail: "full" },
    { title: "Risk, quick answer", restMs: REST_MS },
  );
  const long = useQuestion(
    "risk",
    "risk.run",
    planCaseId === null || asked?.of !== of
      ? null
      : { planCaseId, seed: asked.seed, runs: asked.runs, untilError: asked.untilError, detail: "full" },
    { title: "Risk" },
  );
  const start = (untilError: number | null): void =>
    setRiskChoices({ asked: { of, seed, runs, untilError: untilError === null ? null : error } });
  const sofar = long.isCurrent ? long.value : long.partial;
  const isLongBetter = sofar !== null && sofar.replications > (quick.isCurrent ? (quick.value?.replications ?? 0) : 0);
  const isOfThisCase = quick.value?.planCaseId === planCaseId;
  return {
    answer: isLongBetter ? sofar : isOfThisCase ? quick.value : null,
    isCurrent: (isLongBetter || quick.isCurrent) && !isTrial,
    run: long.run,
    failure: long.failure ?? quick.failure,
    start,
    again: long.failure === null ? quick.again : long.again,
  };
};
