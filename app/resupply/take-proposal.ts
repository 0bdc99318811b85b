/** A proposal taken as a new plan case: a copy of the case it was made for, with its flights, as one step. */
import { z } from "zod";
import { type CaseCopy, copyCase } from "../ledger/case-copy.ts";
import { type Change, type EntityKind, type EntitySet, entitySchemas } from "../ledger/entities.ts";
import { id, label } from "../ledger/quantity.ts";

export const proposalTaken = z.strictObject({
  /** The case that was asked about; the new one, and its name. */
  fromId: id,
  newId: id,
  name: label,
  /** Flights to add, as the answer has them, and hulls that they fly and the ledger does not have. */
  added: z.array(entitySchemas.flight).max(5000),
  craft: z.array(entitySchemas.craft).max(500),
  /** Planned flights of the case that go. */
  leftOutIds: z.array(id).max(5000),
});

type ProposalTaken = Readonly<z.infer<typeof proposalTaken>>;

/** Throws "not found" and "refused" as {@link copyCase} does. Ids of added flights and hulls are made anew. */
export const takeProposal = (
  entities: EntitySet,
  { fromId, newId, name, added, craft, leftOutIds }: ProposalTaken,
  freshId: (kind: EntityKind) => string,
): readonly Change[] => {
  const copy: CaseCopy = { fromId, newId, name };
  const leftOut = new Set(entities.flight.filter((row) => leftOutIds.includes(row.id)).map(({ key }) => key));
  const kept = copyCase(entities, copy, freshId).filter(
    (change) => !(change.op === "put" && change.kind === "flight" && leftOut.has(change.value.key)),
  );
  const hulls = new Map(craft.map((row) => [row.id, freshId("craft")]));
  const hullChanges = craft.map((row): Change => ({
    op: "put",
    kind: "craft",
    value: { ...row, id: hulls.get(row.id) ?? row.id },
  }));
  const flightChanges = added.map((row): Change => {
    const flightId = freshId("flight");
    const craftId = hulls.get(row.craftId) ?? row.craftId;
    return { op: "put", kind: "flight", value: { ...row, id: flightId, key: flightId, craftId, planCaseId: newId } };
  });
  return [...hullChanges, ...kept, ...flightChanges];
};
