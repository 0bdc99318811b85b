/** A plan case with what follows from it, computed in the page: the forecast, the statuses, how long that took. */
import type { PlanView } from "../../app/ledger/ledger-view.ts";
import { forecast } from "../../app/forecast/forecast.ts";
import type { Forecast } from "../../app/forecast/outcome.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { glance } from "../../app/supply/glance.ts";
import type { SupplyGlance } from "../../app/supply/answer.ts";

export interface CaseForecast {
  readonly view: PlanView;
  readonly plan: PlanSnapshot;
  readonly forecast: Forecast;
  readonly glance: SupplyGlance;
  /** Milliseconds that the forecast and the statuses took. */
  readonly tookMs: number;
}

/** Computes both anew. The same view gives the same answer. */
export const forecastCase = (view: PlanView): CaseForecast => {
  const begunAt = performance.now();
  const answer = forecast(view.plan);
  const statuses = glance(view.plan, answer);
  return { view, plan: view.plan, forecast: answer, glance: statuses, tookMs: performance.now() - begunAt };
};
