/** A proposal taken, as one step: as a new plan case, a copy of the one it was made for, or flight by flight in that one itself. */
import { z } from "zod";
import { PlanningError } from "../ground/failure.ts";
import { type CaseCopy, copyCase } from "../ledger/case-copy.ts";
import { type Change, type Entity, type EntityKind, type EntitySet, entitySchemas } from "../entity/entities.ts";
import { id, instant, label } from "../ground/quantity.ts";

const flightMoved = z.strictObject({ flightId: id, departAt: instant, arriveAt: instant });
const sortieMoved = z.strictObject({ sortieId: id, loadAt: instant, returnAt: instant });
export type FlightMoved = Readonly<z.infer<typeof flightMoved>>;

/** What is taken of a proposal: all of it, or flight by flight. */
const parts = {
  /** Flights to add, as the answer has them, and hulls that they fly and the ledger does not have. */
  added: z.array(entitySchemas.flight).max(5000),
  craft: z.array(entitySchemas.craft).max(500),
  /** Planned flights of the case that go. */
  leftOutIds: z.array(id).max(5000),
  /** Flights of the case that are planned for another date. */
  moved: z.array(flightMoved).max(5000).optional(),
  /** Sorties of the case that are planned for another date. */
  sortiesMoved: z.array(sortieMoved).max(5000).optional(),
};

export const proposalTaken = z.strictObject({
  /** The case that was asked about; the new one, and its name. */
  fromId: id,
  newId: id,
  name: label,
  ...parts,
});

export const proposalTakenHere = z.strictObject({ planCaseId: id, ...parts });

type ProposalTaken = Readonly<z.infer<typeof proposalTaken>>;
type ProposalTakenHere = Readonly<z.infer<typeof proposalTakenHere>>;
type FreshId = (kind: EntityKind) => string;

/** The flight of the case. Throws "not found". */
const flightOf = (entities: EntitySet, planCaseId: string, flightId: string, field: string): Entity<"flight"> => {
  const row = entities.flight.find((flight) => flight.id === flightId && flight.planCaseId === planCaseId);
  if (row === undefined) throw new PlanningError("not found", `The plan case has no flight ${flightId}.`, field);
  return row;
};

/** The sortie of the case. Throws "not found", or "refused" for one that is not planned any more. */
const sortieOf = (entities: EntitySet, planCaseId: string, sortieId: string): Entity<"sortie"> => {
  const row = entities.sortie.find((sortie) => sortie.id === sortieId && sortie.planCaseId === planCaseId);
  if (row === undefined)
    throw new PlanningError("not found", `The plan case has no sortie ${sortieId}.`, "sortiesMoved");
  if (row.status === "planned") return row;
  throw new PlanningError("refused", `${row.name} is ${row.status}: it is not planned any more.`, "sortiesMoved");
};

/** The added flights with ids of their own, and the hulls among `craft` that they fly. */
const additions = ({ added, craft }: Pick<ProposalTaken, "added" | "craft">, planCaseId: string, freshId: FreshId) => {
  const flown = new Set(added.map(({ craftId }) => craftId));
  const needed = craft.filter((row) => flown.has(row.id));
  const hulls = new Map(needed.map((row) => [row.id, freshId("craft")]));
  const hullChanges = needed.map((row): Change => ({
    op: "put",
    kind: "craft",
    value: { ...row, id: hulls.get(row.id) ?? row.id },
  }));
  const flightChanges = added.map((row): Change => {
    const flightId = freshId("flight");
    const craftId = hulls.get(row.craftId) ?? row.craftId;
    return { op: "put", kind: "flight", value: { ...row, id: flightId, key: flightId, craftId, planCaseId } };
  });
  return { hullChanges, flightChanges };
};

/** Whether what is stated of an uncertain quantity is about one of these flights. */
const isOfFlight = ({ uncertainty }: Entity<"riskInput">, flightIds: ReadonlySet<string>): boolean =>
  uncertainty.of.kind === "flight" && flightIds.has(uncertainty.of.flightId);

/** Throws "not found" and "refused" as {@link copyCase} does. Ids of added flights and hulls are made anew. */
export const takeProposal = (entities: EntitySet, taken: ProposalTaken, freshId: FreshId): readonly Change[] => {
  const { fromId, newId, name, leftOutIds, moved = [], sortiesMoved = [] } = taken;
  const dates = new Map(sortiesMoved.map((row) => [sortieOf(entities, fromId, row.sortieId).key, row] as const));
  const copy: CaseCopy = { fromId, newId, name };
  const leftOut = new Set(leftOutIds.map((flightId) => flightOf(entities, fromId, flightId, "leftOutIds").key));
  const times = new Map(moved.map((row) => [flightOf(entities, fromId, row.flightId, "moved").key, row] as const));
  const copied = copyCase(entities, copy, freshId);
  const gone = new Set(
    copied.flatMap((change) =>
      change.op === "put" && change.kind === "flight" && leftOut.has(change.value.key) ? [change.value.id] : [],
    ),
  );
  const kept = copied.flatMap((change): readonly Change[] => {
    if (change.op !== "put") return [change];
    if (change.kind === "riskInput") return isOfFlight(change.value, gone) ? [] : [change];
    if (change.kind === "sortie") {
      const to = dates.get(change.value.key);
      if (to === undefined) return [change];
      return [{ ...change, value: { ...change.value, loadAt: to.loadAt, returnAt: to.returnAt } }];
    }
    if (change.kind !== "flight") return [change];
    if (gone.has(change.value.id)) return [];
    const to = times.get(change.value.key);
    if (to === undefined) return [change];
    return [{ ...change, value: { ...change.value, departAt: to.departAt, arriveAt: to.arriveAt } }];
  });
  const { hullChanges, flightChanges } = additions(taken, newId, freshId);
  return [...hullChanges, ...kept, ...flightChanges];
};

/**
 * The same in the plan case itself. Throws "not found" for a flight that the case does not have, "refused" for one that is
 * no longer planned and where there is nothing to take.
 */
export const takeProposalHere = (
  entities: EntitySet,
  taken: ProposalTakenHere,
  freshId: FreshId,
): readonly Change[] => {
  const { planCaseId, leftOutIds, moved = [], sortiesMoved = [] } = taken;
  if (!entities.planCase.some(({ id: caseId }) => caseId === planCaseId))
    throw new PlanningError("not found", `There is no plan case ${planCaseId}.`, "planCaseId");
  if (taken.added.length + leftOutIds.length + moved.length + sortiesMoved.length === 0)
    throw new PlanningError("refused", "There is nothing to take: choose at least one flight.", "added");
  const planned = (flightId: string, field: string): Entity<"flight"> => {
    const row = flightOf(entities, planCaseId, flightId, field);
    if (row.status === "planned" || row.status === "firm") return row;
    throw new PlanningError("refused", `${row.name} is ${row.status}: it is not planned any more.`, field);
  };
  const gone = new Set(leftOutIds.map((flightId) => planned(flightId, "leftOutIds").id));
  const removed = [
    ...entities.riskInput
      .filter((row) => row.planCaseId === planCaseId && isOfFlight(row, gone))
      .map((row): Change => ({ op: "remove", kind: "riskInput", id: row.id })),
    ...[...gone].map((flightId): Change => ({ op: "remove", kind: "flight", id: flightId })),
  ];
  const shifted = moved
    .filter(({ flightId }) => !gone.has(flightId))
    .map(({ flightId, departAt, arriveAt }): Change => ({
      op: "put",
      kind: "flight",
      value: { ...planned(flightId, "moved"), departAt, arriveAt },
    }));
  const { hullChanges, flightChanges } = additions(taken, planCaseId, freshId);
  const dated = sortiesMoved.map(({ sortieId, loadAt, returnAt }): Change => ({
    op: "put",
    kind: "sortie",
    value: { ...sortieOf(entities, planCaseId, sortieId), loadAt, returnAt },
  }));
  return [...removed, ...shifted, ...dated, ...hullChanges, ...flightChanges];
};
