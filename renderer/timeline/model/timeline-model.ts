/** What the timeline shows, before any pixel: one plan case as seen from one depot. */
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import type { Depot } from "../../../app/entity/depot.ts";
import type { Flight } from "../../../app/entity/flight.ts";
import type { Sortie } from "../../../app/entity/sortie.ts";
import { DAY_MS } from "../../../app/ground/quantity.ts";
import { overdueOf, type SupplyGlance } from "../../../app/supply/answer.ts";
import type { Stretch } from "../../../app/picture/time-scale.ts";
import type { Band } from "../../../app/risk/answer.ts";
import type { CaseForecast } from "../../state/case-forecast.ts";
import { NO_FILTER, type PlanFilter, showsFlight, showsSortie } from "../../state/plan-filter.ts";
import type { LevelSource } from "../../../app/picture/level/level-source.ts";
import { depotLevels } from "./depot-levels.ts";

export interface TimelineModel {
  readonly depot: Depot;
  readonly plan: PlanSnapshot;
  readonly glance: SupplyGlance;
  /** All that can be shown: from the first record or departure to the horizon. */
  readonly whole: Stretch;
  /** To or from the depot, by departure, as far as the filter shows them. */
  readonly flights: readonly Flight[];
  /** From the depot, by loading, as far as the filter shows them. */
  readonly sorties: readonly Sortie[];
  /** All of them: the ports are taken, and the tanks filled, by those that are not shown too. */
  readonly allFlights: readonly Flight[];
  /** How many flights and sorties of the depot the filter leaves out. */
  readonly leftOut: number;
  readonly levels: readonly LevelSource[];
  /** Flights and sorties without a record that are assumed to have gone as planned, by id. */
  readonly overdue: ReadonlySet<string>;
  /** Name of the case compared with. */
  readonly compareName: string | null;
  /** What the bands on the levels are; null: there are none. */
  readonly bandNote: string | null;
  /** The resupply proposal whose levels are compared; null: none is. */
  readonly proposal: ModelProposal | null;
}

/** What a resupply proposal adds to this depot's flights, and leaves out of them. */
export interface ModelProposal {
  readonly added: readonly Flight[];
  readonly leftOutIds: ReadonlySet<string>;
}

/** The risk as far as the level charts show it. */
export interface ModelRisk {
  readonly bands: readonly Band[];
  /** Of the plan as it was before the last change. */
  readonly isOld: boolean;
  readonly note: string;
}

/** When a flight leaves the port. */
export const berthEndAt = (flight: Flight): number => flight.arriveAt + flight.berthDays * DAY_MS;

/** Flights that touch a depot, by departure. */
export const flightsOf = (plan: PlanSnapshot, depotId: string): readonly Flight[] =>
  plan.flights
    .filter(
      (flight) => flight.depotId === depotId || (flight.origin.kind === "depot" && flight.origin.depotId === depotId),
    )
    .sort((a, b) => a.departAt - b.departAt || (a.id < b.id ? -1 : 1));

export const sortiesOf = (plan: PlanSnapshot, depotId: string): readonly Sortie[] =>
  plan.sorties
    .filter((sortie) => sortie.depotId === depotId)
    .sort((a, b) => a.loadAt - b.loadAt || (a.id < b.id ? -1 : 1));

/** null: the plan has no depot. An unknown depot id stands for the first. */
export const timelineModel = (
  current: CaseForecast,
  compare: CaseForecast | null,
  depotId: string | null,
  risk: ModelRisk | null = null,
  proposal: ModelProposal | null = null,
  filter: PlanFilter = NO_FILTER,
): TimelineModel | null => {
  const { plan, view, glance } = current;
  const depot = plan.depots.find((candidate) => candidate.id === depotId) ?? plan.depots[0];
  if (depot === undefined) return null;
  const allFlights = flightsOf(plan, depot.id);
  const allSorties = sortiesOf(plan, depot.id);
  const flights = allFlights.filter((flight) => showsFlight(filter, flight));
  const sorties = allSorties.filter((sortie) => showsSortie(filter, sortie));
  const levels = depotLevels(current, compare, depot.id, risk);
  const starts = [
    plan.asOfAt,
    ...view.past.flatMap((history) => history.segments[0]?.startAt ?? []),
    ...allSorties.map((sortie) => sortie.loadAt),
    ...allFlights.map((flight) => flight.departAt),
  ];
  const fromAt = Math.min(...starts);
  const untilAt = Math.max(plan.horizonAt, fromAt + DAY_MS);
  return {
    depot,
    plan,
    glance,
    whole: { fromAt, untilAt },
    flights,
    sorties,
    allFlights,
    leftOut: allFlights.length - flights.length + allSorties.length - sorties.length,
    levels,
    overdue: overdueOf(glance.findings),
    compareName: proposal === null ? (compare?.plan.planCase.name ?? null) : "the proposal",
    bandNote: levels.some(({ band }) => band !== null) ? (risk?.note ?? null) : null,
    proposal:
      proposal === null ? null : { ...proposal, added: proposal.added.filter(({ depotId: to }) => to === depot.id) },
  };
};

/** From the first beginning to the last end of what several depots show: their one time axis. */
export const wholeOf = (models: readonly TimelineModel[]): Stretch | null =>
  models.length === 0
    ? null
    : {
        fromAt: Math.min(...models.map(({ whole }) => whole.fromAt)),
        untilAt: Math.max(...models.map(({ whole }) => whole.untilAt)),
      };
