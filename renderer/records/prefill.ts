/** What the record dialogs begin with: the forecast's amounts, in whole grams, so that only what differs must be typed. */
import type { FlightForecast, SortieForecast, TankAmount, TankFlow } from "../../app/forecast/outcome.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { Flight } from "../../app/entity/flight.ts";
import type { Sortie } from "../../app/entity/sortie.ts";
import type { Tank } from "../../app/entity/tank.ts";

export interface PropellantMass {
  readonly propellantId: string;
  readonly massKg: number;
}

/** Down to the gram, so that parts do not add up to more than the whole. */
export const wholeGrams = (massKg: number): number => Math.floor(massKg * 1000 + 1e-6) / 1000;

const gram = ({ tankId, massKg }: TankAmount): TankAmount => ({ tankId, massKg: wholeGrams(massKg) });

/** Tanks of a depot that hold any of these propellants, in the order of the list of propellants. */
export const tanksFor = (plan: PlanSnapshot, depotId: string, propellantIds: ReadonlySet<string>): readonly Tank[] => {
  const order = new Map(plan.propellants.map(({ id, position }) => [id, position]));
  return plan.tanks
    .filter(
      ({ ownerKind, ownerId, propellantId }) =>
        ownerKind === "depot" && ownerId === depotId && propellantIds.has(propellantId),
    )
    .toSorted((a, b) => (order.get(a.propellantId) ?? 0) - (order.get(b.propellantId) ?? 0));
};

export interface DeparturePrefill {
  readonly at: number;
  readonly loads: readonly PropellantMass[];
  /** Of a flight from a depot, with chilldown and handover loss; empty: from a source. */
  readonly drawn: readonly TankAmount[];
}

/** Up to the gram: what is drawn for a load is never less than the load. */
const gramsUp = (massKg: number): number => Math.ceil(massKg * 1000 - 1e-6) / 1000;

/** What a flight is forecast to load, and to draw for it where it comes from a depot. */
export const departurePrefill = (
  plan: PlanSnapshot,
  flight: Flight,
  forecast: FlightForecast | undefined,
): DeparturePrefill => {
  const lines = forecast?.lines ?? [];
  const ids = new Set(flight.loads.map(({ propellantId }) => propellantId));
  const drawn = lines.flatMap((line) => line.drawn.map(({ tankId, massKg }) => ({ tankId, massKg: gramsUp(massKg) })));
  return {
    at: forecast?.departAt ?? flight.departAt,
    loads: flight.loads.map(({ propellantId, loadedKg }) => {
      const said = lines.find((line) => line.propellantId === propellantId)?.loadedKg;
      return { propellantId, massKg: said === undefined || said === loadedKg ? loadedKg : wholeGrams(said) };
    }),
    drawn:
      flight.origin.kind === "source"
        ? []
        : tanksFor(plan, flight.origin.depotId, ids).map(
            ({ id }) => drawn.find(({ tankId }) => tankId === id) ?? { tankId: id, massKg: 0 },
          ),
  };
};

export interface ArrivalPrefill {
  /** End of the handover. */
  readonly at: number;
  /** The arrival, where the handover is metered; null: at once. */
  readonly sinceAt: number | null;
  /** How a metered handover is forecast to flow. */
  readonly course: readonly TankFlow[];
  readonly taken: readonly TankAmount[];
  readonly handoverLoss: readonly PropellantMass[];
  readonly leftAboard: readonly PropellantMass[];
  readonly vented: readonly PropellantMass[];
}

/** What a flight under way is forecast to give, tank by tank; tanks that get nothing stand there with 0. */
export const arrivalPrefill = (
  plan: PlanSnapshot,
  flight: Flight,
  forecast: FlightForecast | undefined,
): ArrivalPrefill => {
  const lines = forecast?.lines ?? [];
  const ids = new Set(flight.loads.map(({ propellantId }) => propellantId));
  const given = lines.flatMap((line) => line.taken.map(gram));
  const masses = (of: (line: (typeof lines)[number]) => number): readonly PropellantMass[] =>
    plan.propellants
      .filter(({ id }) => ids.has(id))
      .map(({ id }) => {
        const line = lines.find(({ propellantId }) => propellantId === id);
        return { propellantId: id, massKg: line === undefined ? 0 : wholeGrams(of(line)) };
      });
  const arriveAt = Math.round(forecast?.arriveAt ?? flight.arriveAt);
  const endAt = Math.round(Math.max(arriveAt, ...lines.map(({ untilAt }) => untilAt ?? arriveAt)));
  const course = lines
    .flatMap((line) => line.course)
    .map((flow) => ({ ...flow, fromAt: Math.round(flow.fromAt), untilAt: Math.round(flow.untilAt) }));
  return {
    at: endAt,
    sinceAt: course.length > 0 && endAt > arriveAt ? arriveAt : null,
    course,
    taken: tanksFor(plan, flight.depotId, ids).map(
      ({ id }) => given.find(({ tankId }) => tankId === id) ?? { tankId: id, massKg: 0 },
    ),
    handoverLoss: masses((line) => line.chilldownKg + line.handoverLossKg),
    leftAboard: masses((line) => line.residualKg + line.keptAboardKg),
    vented: masses((line) => line.ventedKg),
  };
};

export interface LoadingPrefill {
  readonly at: number;
  readonly drawn: readonly TankAmount[];
  readonly handoverLoss: readonly PropellantMass[];
}

/** What a sortie is forecast to draw, tank by tank. */
export const loadingPrefill = (
  plan: PlanSnapshot,
  sortie: Sortie,
  forecast: SortieForecast | undefined,
): LoadingPrefill => {
  const lines = forecast?.lines ?? [];
  const classId = plan.craft.find(({ id }) => id === sortie.landerId)?.classId;
  const carried = plan.craftClasses.find(({ id }) => id === classId)?.propellants ?? [];
  const ids = new Set([...lines, ...carried].map(({ propellantId }) => propellantId));
  const drawn = lines.flatMap((line) => line.drawn.map(gram));
  return {
    at: Math.round(forecast?.loadedAt ?? sortie.loadAt),
    drawn: tanksFor(plan, sortie.depotId, ids).map(
      ({ id }) => drawn.find(({ tankId }) => tankId === id) ?? { tankId: id, massKg: 0 },
    ),
    handoverLoss: plan.propellants
      .filter(({ id }) => ids.has(id))
      .map(({ id }) => {
        const line = lines.find(({ propellantId }) => propellantId === id);
        return {
          propellantId: id,
          massKg: line === undefined ? 0 : wholeGrams(line.chilldownKg + line.handoverLossKg),
        };
      }),
  };
};

/** What a lander is forecast to bring home. */
export const returnPrefill = (
  plan: PlanSnapshot,
  sortie: Sortie,
  forecast: SortieForecast | undefined,
): readonly PropellantMass[] => {
  const classId = plan.craft.find(({ id }) => id === sortie.landerId)?.classId;
  const carried = plan.craftClasses.find(({ id }) => id === classId)?.propellants ?? [];
  const expectedKg = (propellantId: string): number =>
    forecast?.lines.find((line) => line.propellantId === propellantId)?.returnedKg ?? 0;
  return carried.map(({ propellantId, returnKg }) => ({
    propellantId,
    massKg: forecast === undefined ? returnKg : wholeGrams(expectedKg(propellantId)),
  }));
};
