/** Lays what is supposed over the plan on screen: every view follows, nothing is saved, and the plan cannot be edited meanwhile. */
import type { Failure } from "../../app/ground/failure.ts";
import { applyChanges } from "../../app/entity/plan-changes.ts";
import { type Supposed, isAsPlanned, supposedChanges } from "../../app/supply/supposed.ts";
import type { AppState } from "./app-state.ts";
import { forecastCase } from "./case-forecast.ts";
import type { Store } from "./store.ts";

/** Why the plan is not changed while something is supposed. */
export const TRIAL_REFUSAL: Failure = {
  code: "refused",
  message: "A what-if is on screen: nothing is saved. Keep it as a case or end it, then change the plan.",
  field: null,
};

/** The saved plan is back on screen. */
export const endTrial = (store: Store<AppState>): void => {
  const { trial, compareCaseId, compare } = store.get();
  if (trial === null) return;
  store.set({ trial: null, current: trial.base, compare: compareCaseId === null ? null : compare });
};

/** Supposes something of one flight, beside what is supposed of others. As planned again: the last one ends the trial. */
export const suppose = (store: Store<AppState>, flightKey: string, of: Supposed): void => {
  const { trial, current, compare } = store.get();
  const base = trial?.base ?? current;
  if (base === null) return;
  const { [flightKey]: _before, ...others } = trial?.supposed ?? {};
  const supposed = isAsPlanned(of) ? others : { ...others, [flightKey]: of };
  if (Object.keys(supposed).length === 0) return endTrial(store);
  const plan = applyChanges(base.plan, supposedChanges(base.plan, supposed));
  // Beside it, lighter, the plan as it is saved; unless another case is compared with already.
  store.set({ trial: { base, supposed }, current: forecastCase({ ...base.view, plan }), compare: compare ?? base });
};
