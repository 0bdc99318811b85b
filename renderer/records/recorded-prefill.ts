/** What a form begins with where a record is put right: what was recorded, with a line for all that could have been. */
import type { TankAmount } from "../../app/forecast/outcome.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { Flight } from "../../app/entity/flight.ts";
import type { Sortie } from "../../app/entity/sortie.ts";
import type { RecordInput } from "../../app/records/record-input.ts";
import {
  type ArrivalPrefill,
  type DeparturePrefill,
  type LoadingPrefill,
  type PropellantMass,
  tanksFor,
} from "./prefill.ts";

/** Propellants that a craft can carry and those that were recorded, in the order of their list. */
const propellantsOf = (plan: PlanSnapshot, craftId: string, recorded: readonly string[]): readonly string[] => {
  const classId = plan.craft.find(({ id }) => id === craftId)?.classId;
  const carried = plan.craftClasses.find(({ id }) => id === classId)?.propellants ?? [];
  const ids = new Set([...carried.map(({ propellantId }) => propellantId), ...recorded]);
  return plan.propellants.toSorted((a, b) => a.position - b.position).flatMap(({ id }) => (ids.has(id) ? [id] : []));
};

const masses = (ids: readonly string[], recorded: readonly PropellantMass[]): readonly PropellantMass[] =>
  ids.map((propellantId) => recorded.find((row) => row.propellantId === propellantId) ?? { propellantId, massKg: 0 });

/** Each tank of the depot that can hold one of these, with what was recorded of it, and every other that was recorded. */
const amounts = (
  plan: PlanSnapshot,
  depotId: string,
  ids: readonly string[],
  recorded: readonly TankAmount[],
): readonly TankAmount[] => {
  const known = tanksFor(plan, depotId, new Set(ids)).map(
    ({ id }) => recorded.find(({ tankId }) => tankId === id) ?? { tankId: id, massKg: 0 },
  );
  return [...known, ...recorded.filter(({ tankId }) => known.every((row) => row.tankId !== tankId))];
};

const idsIn = (...lists: readonly (readonly { readonly propellantId: string }[])[]): readonly string[] =>
  lists.flatMap((rows) => rows.map(({ propellantId }) => propellantId));

/** A departure as it was recorded. */
export const recordedDeparture = (
  plan: PlanSnapshot,
  flight: Flight,
  { at, loads, drawn = [] }: RecordInput<"record.departure">,
): DeparturePrefill => {
  const ids = propellantsOf(plan, flight.craftId, idsIn(loads));
  return {
    at,
    loads: masses(
      ids,
      loads.map(({ propellantId, loadedKg }) => ({ propellantId, massKg: loadedKg })),
    ),
    drawn: flight.origin.kind === "depot" ? amounts(plan, flight.origin.depotId, ids, drawn) : [],
  };
};

/** An arrival as it was recorded. */
export const recordedArrival = (
  plan: PlanSnapshot,
  flight: Flight,
  input: RecordInput<"record.arrival">,
): ArrivalPrefill => {
  const { at, sinceAt = null, course = [], taken, handoverLoss, leftAboard, vented } = input;
  const ids = propellantsOf(plan, flight.craftId, idsIn(flight.loads, handoverLoss, leftAboard, vented));
  return {
    at,
    sinceAt,
    course,
    taken: amounts(plan, flight.depotId, ids, taken),
    handoverLoss: masses(ids, handoverLoss),
    leftAboard: masses(ids, leftAboard),
    vented: masses(ids, vented),
  };
};

/** A loading as it was recorded. */
export const recordedLoading = (
  plan: PlanSnapshot,
  sortie: Sortie,
  { at, drawn, handoverLoss }: RecordInput<"record.loading">,
): LoadingPrefill => {
  const ids = propellantsOf(plan, sortie.landerId, idsIn(handoverLoss));
  return { at, drawn: amounts(plan, sortie.depotId, ids, drawn), handoverLoss: masses(ids, handoverLoss) };
};

/** What came home as it was recorded. */
export const recordedReturn = (
  plan: PlanSnapshot,
  sortie: Sortie,
  { aboard }: RecordInput<"record.return">,
): readonly PropellantMass[] => masses(propellantsOf(plan, sortie.landerId, idsIn(aboard)), aboard);

/** The span of a metered handover with another beginning or end: what flowed in it is stretched along. */
export const stretched = (
  before: ArrivalPrefill,
  { sinceAt = before.sinceAt, at = before.at }: { readonly sinceAt?: number | null; readonly at?: number },
): ArrivalPrefill => {
  const from = before.sinceAt;
  if (from === null || sinceAt === null || before.at <= from || at <= sinceAt) return { ...before, sinceAt, at };
  const scale = (at - sinceAt) / (before.at - from);
  const moved = (instant: number): number => Math.round(sinceAt + (instant - from) * scale);
  return {
    ...before,
    sinceAt,
    at,
    course: before.course.map((flow) => ({ ...flow, fromAt: moved(flow.fromAt), untilAt: moved(flow.untilAt) })),
  };
};
