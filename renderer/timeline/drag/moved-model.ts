/** The timeline's model of a changed plan: the forecast anew, everything that the change does not touch as it was. */
import { forecast } from "../../../app/forecast/forecast.ts";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import type { Change } from "../../../app/entity/entities.ts";
import { glance } from "../../../app/supply/glance.ts";
import { applyChanges } from "../../../app/entity/plan-changes.ts";
import { withForecast } from "../model/depot-levels.ts";
import { type TimelineModel, flightsOf, sortiesOf } from "../model/timeline-model.ts";

/** Computed in the page for every frame of a drag. */
export const movedModel = (model: TimelineModel, change: Change): TimelineModel => {
  const plan: PlanSnapshot = applyChanges(model.plan, [change]);
  const seen = forecast(plan);
  const allFlights = flightsOf(plan, model.depot.id);
  // What a filter shows stays in the hand though it leaves the period on the way.
  const shown = new Set([...model.flights, ...model.sorties].map(({ id }) => id));
  const isShown = ({ id }: { readonly id: string }): boolean => model.leftOut === 0 || shown.has(id);
  return {
    ...model,
    plan,
    glance: glance(plan, seen),
    flights: allFlights.filter(isShown),
    sorties: sortiesOf(plan, model.depot.id).filter(isShown),
    allFlights,
    levels: withForecast(model.levels, seen.levels),
  };
};
